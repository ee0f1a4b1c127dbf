/** Edits of the puppet in the book: each checked before it is made, so that no book ever holds an armature that does not open. */
import type { Armature } from '../../puppet/armature.ts';
import { checkArmature } from '../../puppet/parseArmature.ts';
import type { PuppetSettings } from '../../puppet/puppetSettings.ts';
import { STANDARD_ARMATURE } from '../../puppet/standard.ts';
import { currentBook, editBook } from './bookStore.ts';
import { showProblem } from './problems.ts';
import { useBook } from './use.ts';

/** The book's armature, or the standard figure. */
export function useArmature(): Armature {
  return useBook((b) => b.armature) ?? STANDARD_ARMATURE;
}

export function currentArmature(): Armature {
  return currentBook().armature ?? STANDARD_ARMATURE;
}

/** A standard figure that was changed is one no more. */
const CHANGED_NAME = 'My puppet';

/**
 * Changes the armature as one edit. A change that makes no armature is not made, and the strip says why.
 *
 * @param label what undo will say it takes back
 * @param key edits of one key that follow quickly are one undo step
 * @returns whether it was made
 */
export function editArmature(change: (armature: Armature) => Armature, label: string, key?: string): boolean {
  const before = currentArmature();
  const changed = change(before);
  if (changed === before) return true;
  const next = before === STANDARD_ARMATURE && changed.name === STANDARD_ARMATURE.name ? { ...changed, name: CHANGED_NAME } : changed;
  try {
    const armature = checkArmature(next);
    editBook((book) => ({ ...book, armature }), { label, ...(key === undefined ? {} : { key }) });
    return true;
  } catch (thrown) {
    showProblem(thrown);
    return false;
  }
}

/** Changes what is set beside the armature as one edit. */
export function editPuppet(some: Partial<PuppetSettings>, label: string, key?: string): void {
  editBook((book) => ({ ...book, puppet: { ...book.puppet, ...some } }), { label, ...(key === undefined ? {} : { key }) });
}

/** The settings that name joints and bones, as far as this armature has them. */
export function settingsFor(settings: PuppetSettings, armature: Armature): PuppetSettings {
  const joints = new Set(armature.joints.map(({ name }) => name));
  const bones = new Set(armature.bones.map(({ name }) => name));
  return {
    ...settings,
    drives: settings.drives?.filter((d) => joints.has(d.joint)) ?? null,
    curves: settings.curves.filter((c) => joints.has(c.joint)),
    pins: settings.pins.filter((p) => bones.has(p.bone)),
    datum: { ...settings.datum, points: null },
  };
}

/** Puts another armature in the place of the book's, as one edit; `null` is the standard figure. */
export function openArmature(armature: Armature | null, label: string): void {
  editBook((book) => ({ ...book, armature, puppet: settingsFor(book.puppet, armature ?? STANDARD_ARMATURE) }), { label });
}
