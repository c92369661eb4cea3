// Sound: a plain tone with a few partials, made by the browser itself. Knows neither scores nor pages.

const PARTIALS = [0, 1, 0.42, 0.22, 0.1, 0.06, 0.03];
const ATTACK = 0.018;
const RELEASE = 0.09;

/** The frequency of a MIDI number in equal temperament, A4 at 440 Hz. */
export function frequency(midi) {
  return 440 * 2 ** ((midi - 69) / 12);
}

/** A place where tones of one voice meet: its loudness and its side. */
export function desk(context, side) {
  const gain = context.createGain();
  const panner = context.createStereoPanner();
  panner.pan.value = side;
  gain.connect(panner).connect(context.destination);
  return gain;
}

/** A tone from an instant on, in seconds of the context. Returns what can stop it. */
export function tone(context, target, midi, at, lasts) {
  const oscillator = context.createOscillator();
  const imaginary = new Float32Array(PARTIALS);
  const wave = context.createPeriodicWave(new Float32Array(PARTIALS.length), imaginary);
  oscillator.setPeriodicWave(wave);
  oscillator.frequency.value = frequency(midi);
  const envelope = context.createGain();
  const end = at + Math.max(lasts - 0.02, ATTACK);
  envelope.gain.setValueAtTime(0, at);
  envelope.gain.linearRampToValueAtTime(0.3, at + ATTACK);
  envelope.gain.setTargetAtTime(0.17, at + ATTACK, 0.5);
  envelope.gain.setTargetAtTime(0, end, RELEASE / 4);
  oscillator.connect(envelope).connect(target);
  oscillator.start(at);
  oscillator.stop(end + RELEASE);
  return oscillator;
}
