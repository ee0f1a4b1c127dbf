/** The front of the set and the taking camera at the border of a plan: a camera's sign that looks in from where it stands, and words. */
import { boxAround, type Anchor } from './labelPlaces.ts';

export interface CameraSign {
  readonly d: string;
  readonly texts: readonly { readonly key: string; readonly x: number; readonly y: number; readonly anchor: Anchor; readonly text: string }[];
}

/** From the border to the middle of the sign, px. */
const INSET_PX = 16;
/** A camera that looks down more steeply than this stands over the set, not beside it, degrees. Our choice. */
const ABOVE_DEG = 60;
/** A camera so near to the front is called in front, degrees. Our choice. */
const FRONT_DEG = 5;

/**
 * @param azimuthDeg 0 in front (below the picture), 90 at the puppet's right (left of the picture)
 * @param elevationDeg how far down it looks; 90 from above
 */
export function cameraSign({ azimuthDeg, elevationDeg }: { readonly azimuthDeg: number; readonly elevationDeg: number }, widthPx: number, heightPx: number): CameraSign {
  const bottom = heightPx - 8;
  const words = (text: string): CameraSign['texts'][number] => ({ key: 'front', x: widthPx / 2, y: bottom, anchor: 'middle', text });
  if (Math.abs(elevationDeg) >= ABOVE_DEG) return { d: '', texts: [words(`front of the set ↓, camera ${elevationDeg > 0 ? 'above' : 'below'}`)] };
  const turn = (azimuthDeg * Math.PI) / 180;
  // on the picture: X down, Z to the left
  const [awayX, awayY] = [-Math.sin(turn), Math.cos(turn)];
  if (awayY > Math.cos((FRONT_DEG * Math.PI) / 180)) return { d: bodyAt(widthPx / 2, heightPx - 34, 0, 1), texts: [words('front of the set, camera')] };
  const reach = Math.min((widthPx / 2 - INSET_PX) / Math.max(1e-6, Math.abs(awayX)), (heightPx / 2 - INSET_PX) / Math.max(1e-6, Math.abs(awayY)));
  const x = widthPx / 2 + awayX * reach;
  let y = heightPx / 2 + awayY * reach;
  const front = words('front of the set ↓');
  const room = boxAround(front);
  // the sign keeps off the words for the front
  if (y + INSET_PX > room.top && x > room.left - INSET_PX && x < room.right + INSET_PX) y = room.top - INSET_PX - 4;
  const label = { key: 'camera', x: x < widthPx / 2 ? Math.max(8, x - 10) : Math.min(widthPx - 8, x + 10), y: y > heightPx / 2 ? y - 16 : y + 24, anchor: x < widthPx / 2 ? 'start' as const : 'end' as const, text: 'camera' };
  return { d: bodyAt(x, y, awayX, awayY), texts: [front, label] };
}

/** A box with a lens that opens toward the set. @param awayX, awayY unit vector from the set to the camera, px */
function bodyAt(x: number, y: number, awayX: number, awayY: number): string {
  const at = (along: number, across: number): string => `${(x + awayX * along - awayY * across).toFixed(1)},${(y + awayY * along + awayX * across).toFixed(1)}`;
  return `M${at(10, -6)}L${at(10, 6)}L${at(-2, 6)}L${at(-2, -6)}zM${at(-2, -3)}L${at(-9, -7)}L${at(-9, 7)}L${at(-2, 3)}`;
}
