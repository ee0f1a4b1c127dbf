/** A click, made by an oscillator. */
let audio: AudioContext | null = null;

/** Our choice: pitch of the click and its length; short enough for steps on ones at 30 a second. */
const PITCH_HZ = 1200;
const LENGTH_S = 0.02;

/** Must be called from a press, or the browser keeps the sound off. */
export function readySound(): void {
  audio ??= new AudioContext();
  void audio.resume();
}

/** @param volume 0..1 */
export function click(volume: number): void {
  if (audio === null || volume <= 0) return;
  const oscillator = audio.createOscillator();
  const gain = audio.createGain();
  oscillator.frequency.value = PITCH_HZ;
  gain.gain.setValueAtTime(volume, audio.currentTime);
  gain.gain.exponentialRampToValueAtTime(1e-4, audio.currentTime + LENGTH_S);
  oscillator.connect(gain).connect(audio.destination);
  oscillator.start();
  oscillator.stop(audio.currentTime + LENGTH_S);
}
