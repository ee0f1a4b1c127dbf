/** Which joint of the performer is read out. */
import type { ReactElement } from 'react';
import { useStore } from 'zustand';
import { jointWords } from '../../../../charts/figures.ts';
import { JOINT_NAMES, type JointName } from '../../../../motion/joints.ts';
import { readoutsOf } from '../../../../motion/readouts/catalogue.ts';
import { Select } from '../../../fields/Select.tsx';
import { paceView } from '../../../state/paceView.ts';

/** Joints that are known by another name where a whole turn is read of them. */
const WORDS: Readonly<Partial<Record<JointName, string>>> = {
  pelvis: 'pelvis, against the stage', chest: 'spine, chest against pelvis', head: 'head, against the chest',
  leftWrist: 'left forearm and wrist', rightWrist: 'right forearm and wrist', leftClavicle: 'left collar bone', rightClavicle: 'right collar bone',
};

/** What is read out of a joint, as a person would call it. */
export function readoutJointWords(joint: JointName): string {
  return WORDS[joint] ?? jointWords(joint);
}

const OPTIONS = JOINT_NAMES.filter((joint) => readoutsOf(joint).length > 0).map((value) => ({ value, words: readoutJointWords(value) }));

export function ReadoutChooser(): ReactElement {
  const joint = useStore(paceView, (s) => s.readOut);
  return <Select<JointName> label="Read out" value={joint} options={OPTIONS} onChoose={(readOut) => paceView.setState({ readOut })} />;
}
