/** An armature from the text of a file, put in the place of the book's. */
import { ARMATURE_TEXT_LIMIT, parseArmature } from '../../puppet/parseArmature.ts';
import { openArmature } from './puppetEdits.ts';
import { say } from './session.ts';

const SAYS = /"format"\s*:\s*"nudgebook-armature"/;
const BEGINS = /^\W*"format"\s*:\s*"nudgebook-armature"/;

/**
 * Whether the text of a JSON file says of itself that it is an armature. A book holds an armature too, so the outermost object is
 * asked; of a text too long for an armature only its first field.
 */
export function saysArmature(text: string): boolean {
  if (BEGINS.test(text)) return true;
  if (text.length > ARMATURE_TEXT_LIMIT || !SAYS.test(text)) return false;
  try {
    const value: unknown = JSON.parse(text);
    return typeof value === 'object' && value !== null && 'format' in value && value.format === 'nudgebook-armature';
  } catch {
    // What is no JSON is refused, with words, by whoever opens it.
    return false;
  }
}

/** @throws NudgebookError `bad-armature` naming the field; the book is then as it was */
export function openArmatureText(text: string): void {
  const armature = parseArmature(text);
  openArmature(armature, `opening of the puppet “${armature.name}”`);
  say(`Opened the puppet ${armature.name}.`);
}
