/**
 * Which pose measurement made a track: model package, runtime, running mode, the long side it was fed in pixels, and how
 * frames are painted for it (2: copied out as RGBA).
 *
 * It is part of the key under which a track is kept, so that numbers of two different measurements are
 * never mixed. Change it whenever one of these changes; a test compares it with package.json.
 */
export const POSE_VERSION = '0.5.1675469404/tasks-vision-1.1.0/image/640/2';
