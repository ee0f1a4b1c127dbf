import { expect, it } from 'vitest';
import { licencesText } from '../../scripts/assets/licences.ts';
import { PROJECT_FOLDER } from '../../scripts/serve/projectFolder.ts';

it('the licences of everything shipped are gathered', () => {
  const text = licencesText(PROJECT_FOLDER);
  for (const name of ['@mediapipe/tasks-vision 1.1.0, Apache-2.0', 'mediabunny', 'Mozilla Public License', 'react-dom', 'scheduler', 'd3-scale', 'three 0.187.0, MIT', 'SIL Open Font License', 'Apache License']) {
    expect(text).toContain(name);
  }
});
