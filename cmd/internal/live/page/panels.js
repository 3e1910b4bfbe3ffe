// The papers beside the drawing: problems, sheets, cutting, seams, checks.
import { svg } from './drawing.js';
import { inches, length, partial, sizeWords } from './model.js';

export function element(name, attributes, ...children) {
  const e = document.createElement(name);
  for (const key in attributes) {
    if (key in e) e[key] = attributes[key];
    else e.setAttribute(key, attributes[key]);
  }
  e.append(...children);
  return e;
}

export function table(heads, rows) {
  const cells = (name, row, attributes) => row.map((cell, i) => element(name, { className: heads[i].number ? 'number' : '', ...attributes }, cell));
  return element('div', { className: 'wide' }, element('table', {},
    element('thead', {}, element('tr', {}, ...cells('th', heads.map((h) => h.words), { scope: 'col' }))),
    element('tbody', {}, ...rows.map((row) => element('tr', {}, ...cells('td', row))))));
}

const link = (words, action) => element('button', { type: 'button', className: 'link', onclick: action }, words);

// problems lists what is wrong; each leads to its place.
export function problems(list, all, blocks, go) {
  list.replaceChildren(...all.map((p) => {
    const place = p.at ? `${p.at.file}, line ${p.at.start.line}` : 'the whole pattern';
    const item = element('li', { className: p.severity },
      element('div', {}, element('span', { className: 'code' }, `${p.severity} ${p.code}`), ' ', p.message),
      element('div', {}, link(place, () => go(p, item)), p.drawn && blocks.has(p.drawn.unit) ? ' and on the drawing' : ''));
    if (p.help) item.append(element('div', { className: 'help' }, p.help));
    if (p.drawn && (!blocks.has(p.drawn.unit) || p.drawn.ground)) item.append(element('div', { className: 'help' }, `In ${p.drawn.unit}:`), figure(p.drawn));
    return item;
  }));
}

// figure draws the place of a problem that lies on no block that is shown, or on lines
// that are not: those of a drawing that can't be sewn.
function figure({ points = [], lines = [], cure = [], ground }) {
  const all = [...points, ...lines.flat(), ...cure.flat(), ...ground?.outline ?? []], xs = all.map((p) => p[0]), ys = all.map((p) => p[1]);
  const x = Math.min(...xs), y = Math.min(...ys), size = Math.max(Math.max(...xs) - x, Math.max(...ys) - y) || 1;
  const edge = size * (ground ? 0.05 : 0.2), at = (p) => [p[0] - x + edge, size - (p[1] - y) + edge];
  const out = svg('svg', { class: ground ? 'figure whole' : 'figure', viewBox: `0 0 ${size + 2 * edge} ${size + 2 * edge}`, role: 'img', 'aria-label': 'where it lies' });
  const around = ground?.outline.map((p, i, all) => [p, all[(i + 1) % all.length]]) ?? [];
  for (const [list, name] of [[around, 'ground'], [ground?.lines ?? [], 'ground'], [cure, 'fault cure'], [lines, 'fault']]) {
    for (const [a, b] of list) {
      const [x1, y1] = at(a), [x2, y2] = at(b);
      out.append(svg('line', { x1, y1, x2, y2, class: name }));
    }
  }
  for (const p of points) out.append(svg('circle', { cx: at(p)[0], cy: at(p)[1], r: size * (ground ? 0.03 : 0.06), class: 'fault' }));
  return out;
}

// fits says on which papers each size can be printed.
export function fits(root, all, blockName, sizes, current, metric) {
  const mine = all?.filter((f) => f.block === blockName) ?? [];
  if (!mine.length) return root.replaceChildren();
  const papers = Object.keys(mine[0].on);
  const told = { fits: 'fits', parts: 'in parts, glued together', no: 'a section is too large' };
  const words = (how) => element('span', { className: how === 'fits' ? '' : 'no' }, told[how]);
  root.replaceChildren(table([{ words: 'Finished size' }, ...papers.map((p) => ({ words: p }))],
    mine.map((f) => [`${sizeWords(sizes[f.size].finished, metric)}${f.size === current ? ', shown' : ''}`, ...papers.map((p) => words(f.on[p]))])));
}

// sheets shows every page at the same scale. Pictures that are there already are
// given the new page, where it is another, so that nothing flickers.
export function sheets(root, size, folder, paper, made, metric) {
  const scale = Math.min(34, Math.max(20, root.clientWidth / (2.1 * paper.size[0]))); // pixels an inch
  const old = [...root.querySelectorAll('img')];
  const ready = size.sheets.filter((s) => made.has(`${folder}/${s.file}`)); // the others are being made
  root.replaceChildren(...ready.map((s, i) => {
    const address = `out/${folder}/${s.file}?${made.get(`${folder}/${s.file}`)}`;
    const image = old[i] ?? element('img', { loading: 'lazy' });
    if (image.getAttribute('src') !== address) image.src = address;
    image.alt = `Sheet ${s.number}, reversed for sewing`;
    [image.width, image.height] = paper.size.map((l) => Math.round(l * scale));
    return element('figure', {}, element('a', { href: address, target: '_blank', rel: 'noreferrer' }, image),
      element('figcaption', {}, `Sheet ${s.number}: print ${s.copies === 1 ? 'once' : `${s.copies} times`} for a block`));
  }));
  const pdf = element('a', { href: `out/${folder}/sheets.pdf`, target: '_blank', rel: 'noreferrer' }, 'sheets.pdf');
  root.append(size.sheets.length
    ? element('p', { className: 'soft' }, `${sizeWords(paper.size, metric)} paper; `, pdf, ' is the one to print.')
    : element('p', { className: 'soft' }, 'Nothing is sewn on paper.'));
}

// cutting lists the patches by cloth.
export function cutting(root, pattern, size, colors, words) {
  const metric = pattern.settings.metric, parts = [];
  for (const fabric of pattern.fabrics) {
    const rows = size.cutting.filter((r) => r.fabric === fabric.name);
    if (!rows.length) continue;
    const swatch = element('span', { className: 'swatch' });
    swatch.style.background = colors.get(fabric.name);
    parts.push(element('h3', {}, swatch, words.get(fabric.name)), table(
      [{ words: 'Cut', number: true }, { words: 'Shape' }, { words: 'Size' }, { words: 'For' }],
      rows.map((r) => [`(${r.count}${r.count_reversed ? ` + ${r.count_reversed} reversed` : ''})`, r.shape + (r.exact ? ', cut exact' : ''), r.size.map((l) => inches(l, metric)).join(' x '), r.spaces.join(', ')])));
  }
  root.replaceChildren(...parts);
}

// seams tells the true length of every seam, and the joins in their order.
export function seams(root, pattern, model, words, choose) {
  const metric = pattern.settings.metric, parts = [];
  for (const section of model.size.sections) {
    const copy = model.copies.find((c) => c.section === section);
    const turned = model.copies.filter((c) => c.section === section && (c.turn || c.of)).map((c) => (c.of || 'in place') + (c.turn ? `, turned ${Math.round(c.turn * 100) / 100}°` : ''));
    parts.push(element('h3', {}, `Section ${section.name}${section.make > 1 ? `, made ${section.make} times` : ''}${section.reversed_of ? `, ${section.reversed_of} reversed` : ''}`));
    if (turned.length) parts.push(element('p', { className: 'soft' }, turned.slice(0, 8).join('; ') + (turned.length > 8 ? ` and ${turned.length - 8} more` : '')));
    parts.push(table([{ words: 'Space' }, { words: 'Fabric' }, { words: 'Seam, finished', number: true }],
      copy.pieces.map((p) => [link(p.space, () => choose(p.index)), words.get(p.piece.fabric), p.seam ? inches(length(p.seam), metric) : 'no seam'])));
  }
  if (model.size.joins.length) {
    const side = (list) => [...new Set(list.map((i) => model.copies[i].section.name))].join(', ');
    parts.push(element('h3', {}, 'Joins, in the order of sewing'), table(
      [{ words: 'Join', number: true }, { words: 'Sections' }, { words: 'Length', number: true }, { words: 'Points to match', number: true }],
      model.size.joins.map((j) => [String(j.number), `${side(j.left)} to ${side(j.right)}${partial(j)}`, inches(length([j.from, j.to]), metric), String(j.match.length)])));
  }
  root.replaceChildren(...parts);
}

// checks shows the figures of the report, and leads to the worst places.
export function checks(root, pattern, model, choose) {
  const c = model.size.checks, metric = pattern.settings.metric;
  const at = (space) => {
    const p = model.pieces.find((q) => q.space === space);
    return p ? [' at ', link(space, () => choose(p.index))] : [];
  };
  const cell = (...parts) => element('span', {}, ...parts);
  const rows = [
    ['Finished', sizeWords(model.size.finished, metric)], ['Until it is joined', sizeWords(model.size.unfinished, metric)],
    ['Sections', String(c.sections)], ['Pieces', String(c.pieces)], ['Seams, joins too', String(c.seams)],
    ['Points to match', String(c.points_to_match)], ['Most seams at a point', String(c.most_seams_at_a_point || '-')],
    ['Narrowest piece', cell(inches(c.narrowest, metric), ...at(c.narrowest_piece))],
    ['Least margin of a patch', c.least_margin === null ? '-' : cell(inches(c.least_margin, metric), ...at(c.least_margin_piece))],
  ];
  root.replaceChildren(table([{ words: 'What' }, { words: 'Found' }], rows));
  for (const a of pattern.accepted) root.append(element('p', { className: 'soft' }, `Accepted ${a.code}: ${a.message}. ${a.reason}`));
}
