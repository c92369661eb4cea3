// Sound: a plain tone with a few partials, made by the browser itself. Knows neither scores nor pages.

const PARTIALS = [0, 1, 0.42, 0.22, 0.1, 0.06, 0.03];
const ATTACK = 0.018;
const RELEASE = 0.09;

/** The frequency of a MIDI number in equal temperament, A4 at 440 Hz. */
export function frequency(midi) {
  return 440 * 2 ** ((midi - 69) / 12);
}

/** How much stronger a tone is the lower it is, so as to seem as loud: ears are dull for what is low. */
function strength(hertz) {
  return Math.min(Math.max((262 / hertz) ** 0.4, 0.55), 1.4);
}

/** A place where tones of one voice meet, on one side, so loud. */
export function desk(context, side, loudness) {
  const gain = context.createGain();
  const panner = context.createStereoPanner();
  gain.gain.value = loudness;
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
  const loud = strength(frequency(midi));
  const end = at + Math.max(lasts - 0.02, ATTACK);
  envelope.gain.setValueAtTime(0, at);
  envelope.gain.linearRampToValueAtTime(0.3 * loud, at + ATTACK);
  envelope.gain.setTargetAtTime(0.17 * loud, at + ATTACK, 0.5);
  envelope.gain.setTargetAtTime(0, end, RELEASE / 6);
  oscillator.connect(envelope).connect(target);
  oscillator.start(at);
  oscillator.stop(end + RELEASE);
  return oscillator;
}
