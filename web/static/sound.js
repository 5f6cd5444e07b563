// Sounds of the bay, made from oscillators and noise. Silent until the person asks for them.
let audio;

/** A looped second of noise: values of a linear congruential row, so that nothing has to be loaded. */
function noise(context) {
  const buffer = context.createBuffer(1, context.sampleRate, context.sampleRate);
  const data = buffer.getChannelData(0);
  let x = 1;
  for (let k = 0; k < data.length; k += 1) {
    x = (Math.imul(x, 1664525) + 1013904223) >>> 0;
    data[k] = x / 2147483648 - 1;
  }
  const source = context.createBufferSource();
  source.buffer = buffer;
  source.loop = true;
  source.start();
  return source;
}

function begin() {
  const context = new AudioContext();
  const out = context.createGain();
  out.gain.value = 0.5;
  out.connect(context.destination);
  const voice = (source, type, frequency) => {
    const filter = context.createBiquadFilter();
    filter.type = type;
    filter.frequency.value = frequency;
    const gain = context.createGain();
    gain.gain.value = 0;
    source.connect(filter).connect(gain).connect(out);
    return gain;
  };
  const hum = (type) => {
    const source = context.createOscillator();
    source.type = type;
    source.start();
    return source;
  };
  const [engine, strokes, hiss] = [hum("triangle"), hum("sawtooth"), noise(context)];
  return {
    context, out, engine, strokes, clutch: false, heard: false,
    engineGain: voice(engine, "lowpass", 160),
    strokesGain: voice(strokes, "lowpass", 420),
    hissGain: voice(hiss, "bandpass", 5200),
  };
}

/** Two short strokes on metal as the clutch plate meets the pulley, one duller as it leaves. */
function click({ context, out }, pulls) {
  const source = noise(context);
  const filter = context.createBiquadFilter();
  filter.type = "bandpass";
  filter.frequency.value = pulls ? 1700 : 900;
  filter.Q.value = 4;
  const gain = context.createGain();
  const now = context.currentTime;
  gain.gain.setValueAtTime(pulls ? 0.9 : 0.5, now);
  gain.gain.exponentialRampToValueAtTime(0.001, now + 0.07);
  source.connect(filter).connect(gain).connect(out);
  source.stop(now + 0.1);
}

/** Says what is heard now; `on` false falls silent. */
window.lowsideSound = (on, turns, engine, hiss, clutch) => {
  if (!on) {
    if (audio?.heard) audio.context.suspend();
    if (audio) audio.heard = false;
    return;
  }
  audio ??= begin();
  // Asked once: where there is no sound device the context never gets to run, and this is said sixty times a second.
  if (!audio.heard) audio.context.resume();
  audio.heard = true;
  const set = (param, value) => param.setTargetAtTime(value, audio.context.currentTime, 0.06);
  // The engine fires a few times a turn, the compressor strokes five times.
  set(audio.engine.frequency, Math.max(engine * 2, 20));
  set(audio.engineGain.gain, engine > 0 ? 0.22 : 0);
  set(audio.strokes.frequency, Math.max(turns * 5, 20));
  set(audio.strokesGain.gain, turns > 0 ? 0.09 : 0);
  set(audio.hissGain.gain, hiss * 0.35);
  if (clutch !== audio.clutch) click(audio, clutch);
  audio.clutch = clutch;
};
