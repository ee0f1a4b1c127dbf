/**
 * A screen's style sheet dresses that screen alone: what two screens wear lies in `look/`, or in the `shell/` they all hang in. Else a change to one screen changes another unseen.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { PROJECT_FOLDER } from '../../scripts/serve/projectFolder.ts';

const APP = join(PROJECT_FOLDER, 'src/app');
const FILES = readdirSync(APP, { recursive: true, encoding: 'utf8' }).map((file) => file.replaceAll('\\', '/'));
const filesLike = (name: RegExp): string[] => FILES.filter((file) => name.test(file));
const read = (file: string): string => readFileSync(join(APP, file), 'utf8');

/** Who owns a file of the app: one of its screens, or a folder beside them. */
const ownerOf = (file: string): string => /^(screens\/[^/]+|[^/]+)\//.exec(file)?.[1] ?? '';

/** Classes that a sheet's selectors begin with; those further in stand under something of their own. */
function classesOf(sheet: string): string[] {
  const rules = sheet.replace(/\/\*[^]*?\*\//g, '').matchAll(/([^{};]+)\{/g);
  return [...rules].flatMap(([, selectors]) => selectors!.split(',').flatMap((selector) => /^\s*\.([\w-]+)/.exec(selector)?.[1] ?? []));
}

/** Every word in the class names that a component writes, in a plain string or worked out: there the names of variables come along. */
function classesIn(component: string): string[] {
  const names = component.matchAll(/className=(?:"([^"]*)"|\{((?:[^{}]|\{[^{}]*\})*)\})/g);
  return [...names].flatMap(([, plain, made]) => (plain ?? made!).split(/[^\w-]+/));
}

describe('the style sheets', () => {
  const owners = new Map<string, string>();
  for (const file of filesLike(/^(screens|ladder)\/.*\.css$/)) {
    for (const name of classesOf(read(file))) if (!owners.has(name)) owners.set(name, ownerOf(file));
  }
  const shared = new Set(filesLike(/^(look|shell)\/.*\.css$/).flatMap((file) => classesOf(read(file))));

  it('are read at all', () => {
    expect(owners.get('take-side')).toBe('screens/take');
    expect(shared).toContain('panel');
    expect(classesIn('<p className="one two"/><p className={`three ${x ? "four" : \'\'}`}/>')).toEqual(expect.arrayContaining(['one', 'two', 'three', 'four']));
  });

  it('of one screen are worn by no other', () => {
    const borrowed = filesLike(/\.tsx$/).flatMap((file) =>
      classesIn(read(file)).filter((name) => owners.has(name) && !shared.has(name) && owners.get(name) !== ownerOf(file)).map((name) => `${file} wears .${name} of ${owners.get(name)}`));
    expect(borrowed).toEqual([]);
  });
});
