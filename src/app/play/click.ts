/** Clicks, made by oscillators that are given to the audio clock before they are due: what else the page does cannot delay them. */
let audio: AudioContext | null = null;
let master: GainNode | null = null;
let waiting = new Set<OscillatorNode>();
/** The two clocks side by side, seconds of the audio's minus those of the page's: kept, so that clicks are as even as the audio clock. */
let apartS: number | null = null;

/** Our choice: pitch of the click and its length; short enough for steps on ones at 30 a second. */
const PITCH_HZ = 1200;
const LENGTH_S = 0.02;
const SILENT = 1e-4;
/** The clocks are laid side by side anew where they have come so far apart (the machine slept, another loudspeaker). */
const DRIFTED_S = 0.03;

/** Must be called from a press, or the browser keeps the sound off; one of the two is called when it is on, or when it stays off. */
export function readySound(then: () => void, refused: () => void): void {
  audio ??= new AudioContext();
  if (master === null) {
    master = audio.createGain();
    master.connect(audio.destination);
  }
  if (audio.state === 'running') then();
  else audio.resume().then(then, refused);
}

/** Whether clicks that are asked for now will be heard. */
export function soundIsReady(): boolean {
  return audio?.state === 'running';
}

/** @param volume 0..1 */
export function setVolume(volume: number): void {
  if (master !== null) master.gain.value = volume;
}

/** @param atMs moment of the page's clock (`performance.now`) at which it is to be heard; one that is past is heard at once */
export function clickAt(atMs: number): void {
  if (audio === null || master === null) return;
  const at = Math.max(audio.currentTime, audioTimeAt(audio, atMs));
  const oscillator = audio.createOscillator();
  const gain = audio.createGain();
  oscillator.frequency.value = PITCH_HZ;
  gain.gain.setValueAtTime(1, at);
  gain.gain.exponentialRampToValueAtTime(SILENT, at + LENGTH_S);
  oscillator.connect(gain).connect(master);
  oscillator.start(at);
  oscillator.stop(at + LENGTH_S);
  waiting.add(oscillator);
  oscillator.onended = () => {
    waiting.delete(oscillator);
    gain.disconnect();
  };
}

/** Takes back what was asked for and has not been heard. */
export function silence(): void {
  for (const oscillator of waiting) oscillator.disconnect();
  waiting = new Set();
  apartS = null;
}

/** The audio clock at a moment of the page's. Where the browser says what is heard just now, the way to the loudspeaker is counted in. */
function audioTimeAt(context: AudioContext, atMs: number): number {
  const { contextTime, performanceTime } = context.getOutputTimestamp();
  const told = contextTime !== undefined && performanceTime !== undefined && contextTime > 0 && performanceTime > 0;
  const now = told ? contextTime - performanceTime / 1000 : context.currentTime - performance.now() / 1000;
  if (apartS === null || Math.abs(now - apartS) > DRIFTED_S) apartS = now;
  return apartS + atMs / 1000;
}
