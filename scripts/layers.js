/**
 * The folders of src/, from the source of the flow to its mouth. A folder imports only from folders that stand before it.
 * The linter reads this list; DEVELOPERS.md explains it, and a test holds the two and the disk together.
 */
export const LAYERS = ['numeric', 'footage', 'pose', 'motion', 'timing', 'puppet', 'balance', 'plan', 'export', 'book', 'charts', 'app', 'cli'];

/** Folders without DOM, React, engine, clock or chance. */
export const PURE_LAYERS = ['numeric', 'motion', 'timing', 'puppet', 'balance', 'plan', 'export'];
