/**
 * Every number the fit was given by hand, with its source. "Lab": measured on a prototype over 13 rendered clips, where the
 * optimum was flat (docs/method-fit.md). "Chosen": set here, for the reason beside it.
 *
 * Unit directions are radian-like. Residual rows are (difference / sigma).
 */

/** The detector's errors stay alike for about 8 frames at 30 fps (lab); a frame's evidence is its share of that time. */
export const ERROR_MEMORY_S = 8 / 30;
/**
 * The lab divided per-frame residuals by √8 before their losses, and multiplied the sigmas of smoothness and contact by it.
 * Here residuals stay whole and evidence is a weight, so the losses' scales are multiplied instead.
 */
export const LAB_MEMORY = Math.sqrt(8);
/** The same for residuals between frames, which are not divided: pixels of jitter. */
export const STEP_HUBER = 2;

/** Landmark error in the picture: 4 px on a body 495 px high (lab), said in metres at the performer's distance. */
export const IMAGE_SIGMA_M = (4 / 495) * 1.65;
export const IMAGE_HUBER = 2 * LAB_MEMORY;
/** A landmark moves against the one in the frame before by its jitter only: 1 to 2 px each of a body 495 px high (lab), √2 of that for two. */
export const IMAGE_STEP_SIGMA_M = (2.5 / 495) * 1.65;
/** Along its bone a landmark also slides from frame to frame, by this share of the bone's length in the picture (chosen: twice the slack). */
export const STEP_SLIDE = 0.16;

/** Depth differences of the world landmarks: their sigmas, gains and offsets stand in habits.ts. */
export const DEPTH_CAUCHY = 2 * LAB_MEMORY;

/** Raw elbow angle = offset + gain · true (lab; sigma tuned on arm-raise and one-leg-reach, lab 6°: the offset changes with the pose, 2° to 24° within one take; with the habits off the depth it has little left to say). */
export const ELBOW_SIGMA_RAD = (24 * Math.PI) / 180;
export const ELBOW_CAUCHY = 2 * LAB_MEMORY;
export const ELBOW_OFFSET_RAD = (15 * Math.PI) / 180;
export const ELBOW_OFFSET_SIGMA_RAD = (8 * Math.PI) / 180;
export const ELBOW_GAIN = 0.58;
export const ELBOW_GAIN_SIGMA = 0.06;
/** The raw elbow angle counts fully above this in-plane fraction plus the span, hardly below it (lab). */
export const ELBOW_FRACTION_FROM = 0.5;
export const ELBOW_FRACTION_SPAN = 0.3;
export const ELBOW_LEAST_WEIGHT = 0.02;

/**
 * The reader's word on the bend of an elbow: factor on its sigma (tuned); it counts from `BEND_FROM` on, wholly once it is
 * `BEND_SPAN` more (chosen: 17° and 46°).
 */
export const BEND_WIDER = 0.8;
export const BEND_FROM = 0.3;
export const BEND_SPAN = 0.5;
export const BEND_CAUCHY = 2 * LAB_MEMORY;

/** Slack of a bone, as a logarithm (lab). */
export const SLACK_SIGMA = 0.08;
/** Length of spine and shoulder half-axis (tuned; lab 15 mm), and of hip half-axis (lab), about the take's. */
export const TRUNK_SIGMA_M = 0.008;
export const HIP_SIGMA_M = 0.008;
/** Lengths about their measurement (lab: .03 in the logarithm); trunk lengths chosen alike. */
export const LENGTH_SIGMA = 0.03;
export const TRUNK_LENGTH_SIGMA_M = 0.015;

/** Straight limbs: |d₂ - d₁| expected, sigma, scale of the Cauchy loss (elbow: lab; knee tuned, lab 3° and .5; loss tuned to let go sooner, lab .35). */
export const STRAIGHT_KNEE = (6 * Math.PI) / 180;
export const STRAIGHT_KNEE_SIGMA = 0.25;
export const STRAIGHT_ELBOW = (14 * Math.PI) / 180;
export const STRAIGHT_ELBOW_SIGMA = 0.3;
export const STRAIGHT_CAUCHY = 0.25 * LAB_MEMORY;
/** Rounds the tip of |d₂ - d₁|, which has no slope at 0: half a degree (chosen, far below what a landmark can tell). */
export const TIP = 0.01;

/** Upper arms hang (lab). */
export const HANGING = 0.2;
export const HANGING_SIGMA = 0.5;
export const HANGING_CAUCHY = 0.3 * LAB_MEMORY;

/** Knees bend one way, hips stretch back only so far, elbows bend about their crease (lab). */
export const KNEE_SIGMA = 0.08;
export const HIP_BACK = 0.3;
export const HIP_BACK_SIGMA = 0.03;
export const ELBOW_BACK = 0.05;
export const ELBOW_BACK_SIGMA = 0.1;
export const ELBOW_SIDE_SIGMA = 0.5;
/** 1 + cos of the upper arm against trunk-down, below which the crease direction is undecided and loses weight (chosen: 45° round straight up). */
export const CREASE_SURE = 0.3;

/** Trunk upright in depth; hips against shoulders (lab; the scale of the first is taken without √8: it gives way sooner and cost nothing on the tuning clips). */
export const UPRIGHT_SIGMA = 0.25;
export const UPRIGHT_CAUCHY = 1;
export const TWIST_SIGMA = 0.35;
export const TWIST_CAUCHY = 1.5 * LAB_MEMORY;

/** Centre of mass over the planted ankles, a little before them (lab 5.5 cm; the drawn bodies stand at 2 to 5, people at about 5: 4; scale without √8, for the same reason). */
export const BALANCE_FORWARD_M = 0.04;
export const BALANCE_SIGMA_M = 0.05;
export const BALANCE_CAUCHY = 1.5;

/** A planted ankle: 1.5 mm a step at 30 fps (lab), and all planted ankles on one floor (chosen: shoe and heel lift). */
export const PLANTED_STEP_M = 0.0015;
export const FLOOR_SIGMA_M = 0.03;
export const FLOOR_CAUCHY = 1.5 * LAB_MEMORY;
/** A foot counts as planted when its ankle is slower than this and near its lowest level (lab). */
export const PLANTED_SPEED_M_S = 0.12;
export const PLANTED_LEVEL_M = 0.05;

/** Second differences at 30 fps: directions, root across and along the view, trunk vectors (lab). */
export const SMOOTH_DIRECTION = 0.02;
export const SMOOTH_ROOT_M = 0.006;
export const SMOOTH_ROOT_DEPTH_M = 0.01;
export const SMOOTH_TRUNK_M = 0.004;
/** The lab's frame rate, at which its per-frame sigmas were set; here they become densities over time. */
export const LAB_RATE = 30;

/** Camera: pitch (lab 4°; a little wider since people also set phones on the floor) and roll (chosen: people level a horizon better than they aim a lens). */
export const PITCH_SIGMA_RAD = (5 * Math.PI) / 180;
export const ROLL_SIGMA_RAD = (1.5 * Math.PI) / 180;
/** A given pitch or roll is held this tightly. */
export const GIVEN_ANGLE_SIGMA_RAD = (0.2 * Math.PI) / 180;
/** Field of view taken for the shorter side of the picture when nobody says: about a phone's main lens. Guesses of 25 to 60° changed the lab's errors by 2 %. */
export const DEFAULT_FIELD_OF_VIEW_DEG = 50;

/**
 * Shares of body mass and where they sit, so that the centre of mass is a weighted sum of joints.
 * Source: Winter, Biomechanics and Motor Control of Human Movement, table of segment masses (values from memory):
 * trunk .497 and head .081, upper arm .028 (.436 down), forearm and hand .022 (.682), thigh .100 (.433), shank and foot .061 (.606).
 */
export const MASS = { upperArm: 0.028, forearm: 0.022, thigh: 0.1, shank: 0.061, trunk: 0.578 } as const;
export const MASS_DOWN = { upperArm: 0.436, forearm: 0.682, thigh: 0.433, shank: 0.606 } as const;
/** Trunk's at half the spine, head's at one and a half: (.497·.5 + .081·1.5)/.578 of the spine vector above the mid-hip. */
export const TRUNK_MASS_UP = 0.64;

/** Head: error of a face landmark in metres at the head (chosen: 2 px of a body 495 px high), its Huber scale; how far a head usually turns from the chest (weak: the face decides wherever it is seen); how head sizes differ. */
export const HEAD_SIGMA_M = 0.007;
export const HEAD_HUBER = 2;
export const HEAD_ALONE_RAD = 0.7;
export const HEAD_SIZE_RANGE = 0.1;
export const HEAD_ITERATIONS = 6;

/**
 * A person's word (all chosen). Rows beyond this many sigmas pull no harder: two words that cannot both be true share the fault.
 * A forced depth sign gives way by a twentieth of a radian; firm trunk lengths by half a
 * millimetre, a seventh of a pixel on a body 495 px high.
 */
export const HAND_HUBER = 20;
export const SIGN_SIGMA = 0.05;
export const FIRM_SIGMA_M = 0.0005;
