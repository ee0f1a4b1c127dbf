/**
 * Which pose measurement made a track: model package, runtime, running mode and the long side it was fed in pixels.
 *
 * It is part of the key under which a track is kept, so that numbers of two different measurements are
 * never mixed. Change it whenever one of the four changes; a test compares it with package.json.
 */
export const POSE_VERSION = '0.5.1675469404/tasks-vision-1.1.0/image/640/2';
