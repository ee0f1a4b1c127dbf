/** The names of everything a person can do by key, grouped as the key list shows them. */
export const COMMAND_GROUPS = {
  Screens: { showTake: 'Take', showPuppet: 'Puppet', showPace: 'Pace', showPoise: 'Poise', showSheet: 'Sheet', toggleRed: 'Red on black, for the set', toggleHelp: 'This list of keys' },
  Playhead: {
    stepUp: 'One step up (earlier)',
    stepDown: 'One step down (later)',
    pageUp: 'Ten steps up',
    pageDown: 'Ten steps down',
    firstStep: 'First step',
    lastStep: 'Last step',
    goToStep: 'Go to a step by number',
    frameBack: 'One frame of the footage back',
    frameOn: 'One frame of the footage on',
    rowsTaller: 'Taller rows',
    rowsLower: 'Lower rows',
  },
  Take: { inHere: 'Start the take here', outHere: 'End the take here', openDemo: 'Open Marla’s take', fitBody: 'Fit the body', stopWork: 'Stop what is under way' },
  'Putting right by hand': {
    nextJoint: 'Choose the next joint',
    formerJoint: 'Choose the joint before',
    typeAngle: 'Type the angle of the chosen joint',
    takeBackHere: 'Take back what was set for it in this frame',
    turnDepth: 'Turn its limb over in depth',
    leftFoot: 'The left foot stands, or does not',
    rightFoot: 'The right foot stands, or does not',
    swapSides: 'Left and right are swapped',
    spanFrom: 'The span begins here',
    spanTo: 'The span ends here',
    clearSpan: 'No span',
    nextUnsure: 'To the next unsure span',
    formerUnsure: 'To the unsure span before',
  },
  Pace: {
    takeCutoff: 'Smooth as the footage suggests',
    markHere: 'Mark this moment',
    nextMark: 'To the next mark; the arrows move it then',
    formerMark: 'To the mark before',
    playOrTap: 'Play or stop; a tap while the stopwatch is on',
    holdHere: 'Hold this pose for another step',
    nextPaceView: 'Joints, limbs, moves or readouts along the rows',
  },
  Puppet: {
    viewFront: 'From the front',
    viewSide: 'From the puppet’s right',
    viewTop: 'From above',
    viewTurned: 'Turned a little; whole figure',
    orbitLeft: 'Go round to the left',
    orbitRight: 'Go round to the right',
    orbitUp: 'Look from higher up',
    orbitDown: 'Look from lower down',
    toggleGhosts: 'The step before and the step after',
    toggleLabels: 'How much each joint moves',
  },
  Steps: { toggleShot: 'Mark the step as photographed' },
  Book: {
    undo: 'Undo',
    redo: 'Redo',
    openFile: 'Open a clip or a book',
    saveBook: 'Save the book as a file',
    newBook: 'New book',
    saveIncrements: 'Save increments.csv',
    savePlan: 'Save plan.json',
  },
} as const;

type Groups = typeof COMMAND_GROUPS;
export type CommandName = { [G in keyof Groups]: keyof Groups[G] }[keyof Groups];

/** All commands with their words. */
export const COMMAND_WORDS = Object.assign({}, ...Object.values(COMMAND_GROUPS)) as Readonly<Record<CommandName, string>>;
export const COMMAND_NAMES = Object.keys(COMMAND_WORDS) as CommandName[];
