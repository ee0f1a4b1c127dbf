/** An armature from the text of a file, put in the place of the book's. */
import { parseArmature } from '../../puppet/parseArmature.ts';
import { openArmature } from './puppetEdits.ts';
import { say } from './session.ts';

/** Whether a text says of itself, near its beginning, that it is an armature. */
export function saysArmature(text: string): boolean {
  return text.slice(0, 2000).includes('"nudgebook-armature"');
}

/** @throws NudgebookError `bad-armature` naming the field; the book is then as it was */
export function openArmatureText(text: string): void {
  const armature = parseArmature(text);
  openArmature(armature, `opening of the puppet “${armature.name}”`);
  say(`Opened the puppet ${armature.name}.`);
}
