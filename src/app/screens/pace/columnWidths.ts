/** How the room beside the ladder is shared out among the chosen joints. */
export interface ColumnWidths {
  readonly anglePx: number;
  readonly incrementPx: number;
  readonly gapPx: number;
}

const LEAST_PX = 152;
const MOST_PX = 300;
const GAP_PX = 18;

/**
 * @param roomPx width beside the ladder
 * @param joints number of joints shown
 */
export function columnWidths(roomPx: number, joints: number): ColumnWidths {
  const each = Math.max(LEAST_PX, Math.min(MOST_PX, Math.floor(roomPx / Math.max(1, joints))));
  const inner = each - GAP_PX;
  const anglePx = Math.round(inner * 0.6);
  return { anglePx, incrementPx: inner - anglePx, gapPx: GAP_PX };
}
