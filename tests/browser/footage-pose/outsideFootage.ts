/**
 * Real footage that lies beside the repository and is never part of it. Where it is absent, tests say so and skip.
 */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { PROJECT_FOLDER } from '../../../scripts/serve/projectFolder.ts';

const FOLDER = join(PROJECT_FOLDER, '..', 'shared', 'footage');

export const SQUATS = join(FOLDER, 'pose_squats.mp4');
export const SQUATS_IMAGE = join(FOLDER, 'pose_squats.full.json');
export const SQUATS_WORLD = join(FOLDER, 'pose_squats_3d.full.json');
export const STILL = join(FOLDER, 'pose.jpg');

export const HAS_FOOTAGE = [SQUATS, SQUATS_IMAGE, SQUATS_WORLD, STILL].every(existsSync);
if (!HAS_FOOTAGE) console.warn('SKIPPED: tests on real footage, because ../shared/footage is not there.');
