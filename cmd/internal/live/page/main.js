// The page of one pattern: hears of every build and shows it.
import { Drawing } from './drawing.js';
import { block as layOut, inches, length, partial, sizeWords } from './model.js';
import * as panels from './panels.js';
import { Text, moved } from './text.js';

const $ = (id) => document.getElementById(id);
const layerNames = ['numbers', 'sections', 'seams', 'joins', 'arrows', 'cloth', 'worst', 'problems'];

let state = null, model = null, chosen = -1, builds = 0;
let outputs = new Map(), fits = [], thick = []; // of every file: since when it is as it is
const pick = { block: 0, size: 0, colorway: 0 };

const drawing = new Drawing($('drawing'), (index) => choose(index));
const text = new Text($('text'), $('file'), (file, line) => chooseLine(file, line));

// build shows a build: the drawing first, and the papers once it is on the screen.
function build(next) {
  const first = !state?.pattern;
  state = next;
  if (next.good || next.held) thick = []; // counted anew a little later
  status();
  const { pattern } = state;
  if (pattern) {
    $('title').textContent = pattern.title || state.file;
    document.title = `${pattern.title || state.file} - Seamwright`;
    choices();
    const sewn = model && $('step').value === $('step').max ? Infinity : Number($('step').value);
    draw(first || !model ? Infinity : sewn);
  }
  document.documentElement.dataset.drawn = ++builds;
  later(() => {
    if (state !== next) return;
    showText();
    if (pattern) papers();
    document.documentElement.dataset.shown = builds;
  });
}

// later does what need not be in the next frame.
const later = (work) => requestAnimationFrame(() => (window.requestIdleCallback ? requestIdleCallback(work, { timeout: 200 }) : setTimeout(work, 30)));

function status() {
  const { good, held, pattern, problems } = state, at = $('state');
  const words = (n, word) => `${n} ${word}${n === 1 ? '' : 's'}`;
  at.classList.toggle('bad', !good);
  if (good) at.textContent = problems.warnings ? `Built, with ${words(problems.warnings, 'warning')}` : 'Built; nothing to mend';
  else if (held) at.textContent = `${words(problems.errors, 'error')}; this is what you draw, no file is written`;
  else at.textContent = `${words(problems.errors, 'error')}${pattern ? '; this is the last good build' : '; there is no good build yet'}`;
  $('problems').hidden = !problems.problems.length;
  const blocks = new Set(pattern?.blocks.map((b) => b.name) ?? []);
  panels.problems($('problem-list'), problems.problems, blocks, (p, item) => {
    for (const other of document.querySelectorAll('#problem-list .chosen')) other.classList.remove('chosen');
    item.classList.add('chosen');
    if (p.at) text.go(nameOf(p.at.file), p.at.start.line);
    const at = p.drawn ? pattern?.blocks.findIndex((b) => b.name === p.drawn.unit) ?? -1 : -1;
    if (at >= 0) {
      pick.block = at;
      $('show-problems').checked = true;
      choices();
      draw(Infinity);
      drawing.mark([p]);
      $('board').scrollIntoView({ block: 'nearest' });
    }
  });
}

const nameOf = (file) => state.sources.find((s) => s.file === file)?.name ?? '';

// choices fills the lists of blocks, sizes and colorways.
function choices() {
  const { pattern } = state;
  const fill = (id, names, key) => {
    pick[key] = Math.min(pick[key], names.length - 1);
    $(id).replaceChildren(...names.map((name, i) => new Option(name, i)));
    $(id).value = pick[key];
  };
  fill('block', pattern.blocks.map((b) => b.title || b.name), 'block');
  const { sizes } = pattern.blocks[pick.block];
  fill('size', sizes.map((s) => sizeWords(s.finished, pattern.settings.metric)), 'size');
  fill('colorway', pattern.colorways.map((c) => c.words || c.name || 'as written'), 'colorway');
  $('choose-block').hidden = pattern.blocks.length < 2;
  $('choose-colorway').hidden = pattern.colorways.length < 2;
}

// dressed is the color and the words of each fabric in the chosen colorway.
function dressed() {
  const { fabrics, colorways } = state.pattern, colors = new Map(), words = new Map();
  fabrics.forEach((f, i) => {
    const cloth = colorways[pick.colorway]?.cloths[i] ?? f;
    colors.set(f.name, cloth.color);
    words.set(f.name, cloth.words || f.words);
  });
  return { colors, words };
}

const layers = () => ({
  ...Object.fromEntries(layerNames.map((name) => [name, $(`show-${name}`).checked])),
  metric: state.pattern.settings.metric,
});

function draw(sewn) {
  const old = model?.pieces[chosen];
  model = layOut(state.pattern, pick.block, pick.size);
  const same = old && model.pieces[old.index]?.space === old.space;
  chosen = same ? old.index : -1;
  const { written, size, steps } = model;
  drawing.sewn = sewn; drawing.chosen = chosen;
  drawing.marked = state.problems.problems.filter((p) => p.drawn?.unit === written.name);
  drawing.stacks = stacks();
  drawing.show(model, dressed().colors, layers());
  describe();
  $('step').max = steps.length;
  $('step').value = Math.min(sewn, steps.length);
  $('drawing').setAttribute('aria-label', `${written.title}, finishes at ${sizeWords(size.finished, state.pattern.settings.metric)}, ${drawing.back ? 'back' : 'front'}, ${size.sections.length} different sections, ${model.pieces.length} pieces`);
  tell();
}

// stacks are the points of what is shown, and how many layers of cloth lie there.
const stacks = () => thick.find((t) => t.block === model.written.name && t.size === pick.size)?.points ?? [];

// papers shows what stands beside the drawing; a part that would be the same is
// left alone.
function papers() {
  const { pattern } = state, { colors, words } = dressed(), { metric } = pattern.settings;
  const size = JSON.stringify(model.size), cloth = JSON.stringify([[...colors], [...words]]);
  sheets();
  fresh('cutting', [size, cloth, metric], (root) => panels.cutting(root, pattern, model.size, colors, words));
  fresh('seams', [size, cloth, metric], (root) => panels.seams(root, pattern, model, words, choose));
  fresh('checks', [size, metric, pattern.accepted], (root) => panels.checks(root, pattern, model, choose));
}

const made = {};

function fresh(id, inputs, make) {
  const key = JSON.stringify(inputs);
  if (made[id] === key) return;
  made[id] = key;
  make($(id));
}

// sheets shows the printed pages, which come a little after the rest.
function sheets() {
  const { pattern } = state, { metric, sheet } = pattern.settings;
  const folders = [...outputs.keys()].filter((o) => o.endsWith('/cutting.md')).map((o) => o.slice(0, -'/cutting.md'.length));
  const before = pattern.blocks.slice(0, pick.block).reduce((n, b) => n + b.sizes.length, 0);
  const folder = folders[before + pick.size];
  panels.fits($('fits'), fits, model.written.name, model.written.sizes, pick.size, metric);
  if (folder) panels.sheets($('sheets'), model.size, folder, sheet, outputs, metric);
}

function showText() {
  text.show(state.sources, state.problems.problems);
  $('file-name').textContent = state.sources.length > 1 ? '' : state.file;
  if (chosen < 0) return;
  const at = lineOf(model.pieces[chosen].written); // the line may have moved
  if (at.file === text.file) text.mark(at.line, false);
}

// lineOf is where a part of the drawing is written, in the text as it is now.
function lineOf(part) {
  const file = part.file ?? '', before = state.built?.find((s) => s.name === file), now = state.sources.find((s) => s.name === file);
  return { file, line: before && now ? moved(part.line, before.text, now.text) : part.line };
}

// choose shows a piece: what it is, and its line.
function choose(index, goes = true) {
  chosen = index;
  drawing.sew(drawing.sewn, chosen);
  const { file, line } = describe();
  if (goes && line) text.go(file, line);
}

// describe tells what the chosen piece is, and returns where it is written.
function describe() {
  const p = model.pieces[chosen];
  if (!p) {
    $('caption').textContent = 'Click a space to see what it is and where it is written.';
    return {};
  }
  const { words } = dressed(), metric = state.pattern.settings.metric, { cut } = p.piece;
  const parts = [`${p.space}, ${words.get(p.piece.fabric)}`];
  if (p.seam) parts.push(`seam ${inches(length(p.seam), metric)} finished`);
  parts.push(`patch ${cut.shape} ${cut.size.map((l) => inches(l, metric)).join(' x ')}`);
  if (p.copy.of) parts.push(p.copy.of + (p.copy.turn ? `, turned ${Math.round(p.copy.turn * 100) / 100}°` : ''));
  const at = lineOf(p.written);
  if (at.line) parts.push(`written on line ${at.line}${at.file ? ` of ${at.file}` : ''}`);
  const told = `${parts.join('; ')}.`;
  if ($('caption').textContent !== told) $('caption').textContent = told;
  return at;
}

// chooseLine marks a line and chooses the piece that is written there, or the first
// that is placed there.
function chooseLine(file, line) {
  text.mark(line, true);
  if (!model) return;
  const here = (part) => { const l = lineOf(part); return l.file === file && l.line === line; };
  const at = model.pieces.find((p) => here(p.written)) ?? model.pieces.find((p) => here(p.copy.at));
  if (at) choose(at.index, false);
}

// tell says what the slider's step is.
function tell() {
  const n = Number($('step').value), step = model.steps[n - 1], { words } = dressed(), metric = state.pattern.settings.metric;
  let what = 'nothing sewn yet';
  if (n === model.steps.length) what = 'all sewn';
  else if (step?.piece) what = `${step.piece.space}, ${words.get(step.piece.piece.fabric)}${step.piece.seam ? `, seam ${inches(length(step.piece.seam), metric)}` : ', laid down'}`;
  else if (step?.join) what = `join ${step.join.number}, ${inches(length([step.join.from, step.join.to]), metric)}, ${step.join.match.length} to match${partial(step.join)}`;
  $('told').textContent = `${n} of ${model.steps.length}: ${what}`;
  $('step').setAttribute('aria-valuetext', $('told').textContent);
}

function step(by) {
  $('step').value = Number($('step').value) + by;
  stepped();
}

function stepped() {
  if (!model) return;
  const n = Number($('step').value);
  drawing.sew(n === model.steps.length ? Infinity : n, chosen);
  tell();
}

function side(back) {
  drawing.back = back;
  $('front').setAttribute('aria-pressed', String(!back));
  $('back').setAttribute('aria-pressed', String(back));
  if (model) draw(drawing.sewn);
}

$('step').addEventListener('input', stepped);
$('before').addEventListener('click', () => step(-1));
$('after').addEventListener('click', () => step(1));
$('front').addEventListener('click', () => side(false));
$('back').addEventListener('click', () => side(true));
$('larger').addEventListener('click', () => drawing.scale(1.4));
$('smaller').addEventListener('click', () => drawing.scale(1 / 1.4));
$('whole').addEventListener('click', () => drawing.scale(0));
$('choices').addEventListener('submit', (e) => e.preventDefault());
for (const key of ['block', 'size', 'colorway']) {
  $(key).addEventListener('change', () => {
    pick[key] = Number($(key).value);
    if (!state?.pattern) return;
    choices();
    draw(drawing.sewn);
    papers();
  });
}
for (const name of layerNames) {
  $(`show-${name}`).addEventListener('change', () => { if (model) draw(drawing.sewn); });
}
$('board').addEventListener('keydown', (e) => {
  if (!model || e.ctrlKey || e.metaKey || e.altKey) return;
  const count = model.pieces.length;
  const next = {
    ArrowRight: (chosen + 1) % count, ArrowDown: (chosen + 1) % count,
    ArrowLeft: (chosen + count - (chosen < 0 ? 0 : 1)) % count, ArrowUp: (chosen + count - (chosen < 0 ? 0 : 1)) % count,
    Home: 0, End: count - 1,
  }[e.key];
  const zoom = { '+': 1.4, '=': 1.4, '-': 1 / 1.4, 0: 0 }[e.key];
  if (next === undefined && zoom === undefined) return;
  e.preventDefault();
  if (next !== undefined) choose(next);
  else drawing.scale(zoom);
});

const events = new EventSource('events');
events.addEventListener('build', (e) => build(JSON.parse(e.data)));
events.addEventListener('outputs', (e) => {
  outputs = new Map(JSON.parse(e.data));
  later(() => { if (model) sheets(); });
});
events.addEventListener('fits', (e) => {
  fits = JSON.parse(e.data);
  later(() => { if (model) sheets(); });
});
events.addEventListener('layers', (e) => {
  thick = JSON.parse(e.data);
  if (!model) return;
  drawing.stacks = stacks();
  if (drawing.layers.cloth || drawing.layers.worst) drawing.sew(drawing.sewn, chosen);
});
events.addEventListener('error', () => {
  $('state').textContent = 'Not connected; is `seamwright watch` still running?';
  $('state').classList.add('bad');
});
events.addEventListener('open', () => { if (state) status(); });
