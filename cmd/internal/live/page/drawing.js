// The block, drawn: sides, layers, zoom, and how far it is sewn.
import { apart, bounds, busiest, inches, inside, length, middle, room } from './model.js';

const unit = 100; // of the drawing, for one inch
const space = 'http://www.w3.org/2000/svg';

// Sizes on the screen, in pixels: of the smallest and the largest label of a
// space, of other labels and how far below a place they stand, of arrows and of marks.
const smallest = 8, largest = 17, words = 12.5, below = 20, arrows = 26, end = 3, fault = 9;

const thickFrom = 12; // layers of cloth: one sews slowly there (rule R117)

export function svg(name, attributes, ...children) {
  const e = document.createElementNS(space, name);
  for (const key in attributes) e.setAttribute(key, attributes[key]);
  e.append(...children);
  return e;
}

export class Drawing {
  constructor(root, choose) {
    this.root = root;
    this.board = root.parentElement;
    this.zoom = 1;
    this.center = null;
    this.back = false;
    this.stacks = []; // points, and how many layers of cloth lie there; the thickest first
    root.addEventListener('click', (e) => {
      const at = e.target.closest('[data-piece]');
      if (at && !this.dragged) choose(Number(at.dataset.piece));
    });
    this.drag();
    new ResizeObserver(() => { if (this.model) this.repaint(); }).observe(this.board);
    root.addEventListener('wheel', (e) => {
      if (!e.ctrlKey && !e.metaKey) return; // the page scrolls
      e.preventDefault();
      this.scale(e.deltaY < 0 ? 1.2 : 1 / 1.2, this.under(e));
    }, { passive: false });
  }

  // show draws a model. What it is dressed in is a color for every fabric.
  show(model, colors, layers) {
    this.model = model;
    this.colors = colors;
    const [w, h] = model.size.finished, across = Math.max(w, h);
    const most = Math.max(0, ...apart(model, 0).flat());
    this.gap = most ? Math.min(0.035, 0.09 / most) * across : 0;
    const edge = most * this.gap + 0.03 * across;
    this.box = [-edge, -edge, w + edge, h + edge];
    this.layers = layers;
    this.repaint();
  }

  repaint() {
    const [x0, y0, x1, y1] = this.box;
    // inches for a pixel of the screen, at this zoom
    this.pixel = Math.max((x1 - x0) / (this.root.clientWidth || 600), (y1 - y0) / (this.root.clientHeight || 600)) / this.zoom;
    this.paint();
    this.view();
  }

  // at is where a point of the block lies in the drawing.
  at([x, y]) {
    const [w, h] = this.model.size.finished;
    return [Math.round((this.back ? w - x : x) * unit * 100) / 100, Math.round((h - y) * unit * 100) / 100];
  }

  points(list) { return list.map((p) => this.at(p).join(',')).join(' '); }

  line(a, b, name) {
    const [x1, y1] = this.at(a), [x2, y2] = this.at(b);
    return svg('line', { x1, y1, x2, y2, class: name });
  }

  plate(text, at, name, size = words * this.pixel) {
    const [x, y] = this.at(at);
    const t = svg('text', { x, y, 'font-size': size * unit, 'stroke-width': 3 * this.pixel * unit, class: `plate ${name}` });
    t.textContent = text;
    return t;
  }

  // paint draws the copies. One that is drawn already just so is left alone: in
  // a large block most are, and that is most of the time.
  paint() {
    const { model, layers } = this;
    const all = JSON.stringify([layers, this.back, this.pixel]);
    if (this.all !== all) this.groups = [];
    this.all = all;
    const old = this.groups;
    let moved = old.length !== model.copies.length;
    this.polygons = []; this.numbers = []; this.groups = [];
    for (const copy of model.copies) {
      const points = copy.pieces.map((p) => this.points(p.polygon)), spaces = copy.pieces.map((p) => p.space);
      const looks = `${copy.turn} ${this.points(copy.outline)} ${spaces} ${points}`;
      let group = old[copy.index];
      if (group?.looks !== looks || group.first !== copy.pieces[0]?.index) {
        group = { ...this.copy(copy, points), looks, first: copy.pieces[0]?.index };
        moved = true;
      }
      this.groups.push(group);
      this.polygons.push(...group.polygons);
      this.numbers.push(...group.numbers);
    }
    this.over ??= svg('g', {});
    this.faults ??= svg('g', {});
    this.weak ??= svg('g', {});
    this.thick ??= svg('g', {});
    if (moved) this.root.replaceChildren(...this.groups.map((g) => g.root), this.over, this.weak, this.faults, this.thick);
    this.sew(this.sewn ?? Infinity, this.chosen ?? -1);
    this.mark(this.marked ?? []);
  }

  // copy draws one section in its place.
  copy(copy, points) {
    const { layers } = this, root = svg('g', {});
    const polygons = copy.pieces.map((p, i) => svg('polygon', { points: points[i], 'data-piece': p.index }));
    root.append(...polygons);
    if (layers.sections) root.append(svg('polygon', { points: this.points(copy.outline), class: 'section' }));
    if (layers.seams) root.append(...copy.pieces.flatMap((p) => (p.seam ? this.chord(p.seam) : [])));
    const numbers = copy.pieces.map((p) => (layers.numbers ? this.number(p, root) : null));
    if (layers.arrows) root.append(...this.arrow(copy));
    if (layers.sections && !layers.numbers) {
      const [x, y] = middle(copy.outline), size = Math.min(room(copy.outline, [x, y]) * 0.9, 1.5 * largest * this.pixel);
      const aside = layers.arrows ? 0.6 * size + arrows * this.pixel * 0.3 : 0; // the arrow has the middle
      const angle = copy.turn * Math.PI / 180;
      if (size > smallest * this.pixel) root.append(this.plate(copy.section.name, [x + aside * Math.cos(angle), y + aside * Math.sin(angle)], '', size));
    }
    return { root, polygons, numbers };
  }

  // number is the space's label, where there is room for one.
  number(p, group) {
    const at = middle(p.polygon), size = Math.min(room(p.polygon, at) * 0.9, largest * this.pixel);
    if (size < smallest * this.pixel) return null;
    const [x, y] = this.at(at);
    const t = svg('text', { x, y, 'font-size': size * unit });
    t.textContent = p.space;
    group.append(t);
    return t;
  }

  // chord is a seam's true line, from end to end, with its length, aside from
  // the middle, where the spaces have their labels.
  chord(seam) {
    const parts = [this.line(seam[0], seam[1], 'seam')];
    for (const at of seam) parts.push(this.dot(at, end));
    if (length(seam) > 6 * words * this.pixel) {
      const at = [0.7 * seam[0][0] + 0.3 * seam[1][0], 0.7 * seam[0][1] + 0.3 * seam[1][1]];
      parts.push(this.plate(inches(length(seam), this.layers.metric), at, 'of-seam'));
    }
    return parts;
  }

  dot(at, size, name = 'end') {
    const [cx, cy] = this.at(at);
    return svg('circle', { cx, cy, r: size * this.pixel * unit, class: name });
  }

  // free is a place in a section where an arrow covers no name of a space, and how
  // much room there is about it; the middle, where no names are shown.
  free(copy) {
    const names = !this.layers.numbers ? [] : copy.pieces.map(({ polygon }) => {
      const at = middle(polygon);
      return { at, half: 0.7 * Math.min(room(polygon, at), largest * this.pixel) };
    });
    const about = (at) => Math.min(room(copy.outline, at), ...names.map((n) => length([n.at, at]) - n.half));
    const [x0, y0, x1, y1] = bounds(copy.outline), parts = 12;
    let best = middle(copy.outline), most = about(best);
    for (let i = 1; i < parts && names.length; i++) {
      for (let j = 1; j < parts; j++) {
        const at = [x0 + (x1 - x0) * i / parts, y0 + (y1 - y0) * j / parts];
        const here = inside(copy.outline, at) ? about(at) : 0;
        if (here > most) [best, most] = [at, here];
      }
    }
    return [best, most];
  }

  // arrow points to where the top of the section, as it is printed, lies.
  arrow(copy) {
    const [[mx, my], about] = this.free(copy);
    const size = Math.min(about * 0.9, arrows * this.pixel);
    const angle = copy.turn * Math.PI / 180, up = [-Math.sin(angle), Math.cos(angle)], side = [up[1], -up[0]];
    const point = (a, b) => [mx + size * (a * up[0] + b * side[0]), my + size * (a * up[1] + b * side[1])];
    const shape = [point(1, 0), point(0.2, 0.45), point(0.2, 0.14), point(-0.9, 0.14), point(-0.9, -0.14), point(0.2, -0.14), point(0.2, -0.45)];
    return [svg('polygon', { points: this.points(shape), class: 'turn' })];
  }

  // sew shows the first steps done and the last of them marked.
  sew(steps, chosen) {
    const { model } = this;
    const done = Math.min(steps, model.steps.length), whole = done === model.steps.length;
    this.sewn = steps; this.chosen = chosen;
    const joins = Math.max(0, done - model.pieces.length);
    const shift = whole ? model.copies.map(() => [0, 0]) : apart(model, joins).map((s) => s.map((v) => v * this.gap));
    this.groups.forEach(({ root }, i) => {
      const x = (this.back ? -1 : 1) * shift[i][0] * unit, y = -shift[i][1] * unit;
      if (x || y) root.setAttribute('transform', `translate(${x.toFixed(2)} ${y.toFixed(2)})`);
      else if (root.hasAttribute('transform')) root.removeAttribute('transform');
    });
    const now = whole ? null : model.steps[done - 1];
    for (const p of model.pieces) this.dress(p, p.index < done);
    this.over.replaceChildren();
    this.weakest(whole);
    this.thickness(whole);
    this.faults.setAttribute('display', whole ? 'inline' : 'none'); // their places are those of the whole
    if (now?.piece?.seam) this.over.append(this.moved(shift[now.piece.copy.index], ...this.chord(now.piece.seam)));
    if (now?.join) this.over.append(this.moved(shift[now.join.left[0] ?? now.join.right[0]] ?? [0, 0], this.line(now.join.from, now.join.to, 'join now')));
    if (whole && this.layers.joins) this.joins();
    const p = model.pieces[chosen];
    if (!p) return;
    const points = this.points(p.polygon);
    this.over.append(this.moved(shift[p.copy.index], svg('polygon', { points, class: 'halo' }),
      svg('polygon', { points, class: 'chosen', 'data-chosen': p.index }), ...(p.seam ? this.chord(p.seam) : [])));
  }

  // dress gives a piece its cloth, where it has another look now.
  dress(p, sewn) {
    const polygon = this.polygons[p.index], color = sewn ? this.colors.get(p.piece.fabric) ?? '#888888' : '';
    if (polygon.cloth === color) return;
    polygon.cloth = color;
    polygon.setAttribute('class', sewn ? 'piece' : 'piece unsewn');
    if (sewn) polygon.setAttribute('fill', color);
    else polygon.removeAttribute('fill');
    this.numbers[p.index]?.setAttribute('fill', !sewn ? 'currentColor' : bright(color) ? '#14181a' : '#ffffff');
  }

  moved([dx, dy], ...children) {
    return svg('g', { transform: `translate(${(this.back ? -1 : 1) * dx * unit} ${-dy * unit})` }, ...children);
  }

  // joins draws the joins with their numbers, and the points to match.
  joins() {
    for (const join of this.model.size.joins) {
      this.over.append(this.line(join.from, join.to, 'halo'), this.line(join.from, join.to, 'join'), ...join.match.map((m) => this.dot(m, 2 * end)));
    }
    for (const join of this.model.size.joins) {
      const at = [0.62 * join.from[0] + 0.38 * join.to[0], 0.62 * join.from[1] + 0.38 * join.to[1]];
      this.over.append(this.plate(`join ${join.number}`, at, 'of-join'));
    }
  }

  // thickness tells how many layers of cloth lie where pieces meet, the most where
  // there is no room for two numbers.
  thickness(whole) {
    this.thick.replaceChildren();
    if (!whole || !this.layers.cloth) return;
    const told = [];
    for (const [x, y, layers] of this.stacks) {
      if (told.some((at) => length([at, [x, y]]) < 1.6 * words * this.pixel)) continue;
      told.push([x, y]);
      const [cx, cy] = this.at([x, y]);
      this.thick.append(svg('circle', { cx, cy, r: 0.75 * words * this.pixel * unit, class: layers < thickFrom ? 'stack' : 'stack thick' }), this.plate(String(layers), [x, y], 'of-layers'));
    }
  }

  // weakest marks where the block is hardest to sew: the places at which most pieces
  // meet, the narrowest piece, and the one whose patch has least to spare.
  weakest(whole) {
    this.weak.replaceChildren();
    if (!whole || !this.layers.worst) return;
    const { checks } = this.model.size, { metric } = this.layers;
    const piece = (space, told) => {
      const p = this.model.pieces.find((q) => q.space === space);
      if (!p) return;
      const [x, y] = middle(p.polygon); // the name of the space stands there
      this.weak.append(svg('polygon', { points: this.points(p.polygon), class: 'worst' }), this.plate(told, [x, y - below * this.pixel], 'of-worst'));
    };
    const narrow = `narrowest, ${inches(checks.narrowest, metric)}`, spare = checks.least_margin === null ? '' : `least to spare, ${inches(checks.least_margin, metric)}`;
    if (checks.narrowest_piece === checks.least_margin_piece) piece(checks.narrowest_piece, `${narrow}; ${spare}`);
    else {
      piece(checks.narrowest_piece, narrow);
      piece(checks.least_margin_piece, spare);
    }
    busiest(this.model).forEach(({ at, pieces }, i) => {
      this.weak.append(this.dot(at, fault, 'worst'));
      const [, , layers] = this.stacks.find((s) => length([s, at]) < 0.01) ?? [];
      if (i === 0) this.weak.append(this.plate(`${pieces} pieces meet${layers ? `, ${layers} layers` : ''}`, [at[0], at[1] - below * this.pixel], 'of-worst'));
    });
  }

  // mark shows where problems lie: places in squares of the block's grid.
  mark(problems) {
    this.marked = problems;
    const [gw, gh] = this.model.written.grid, [w, h] = this.model.size.finished;
    const at = ([x, y]) => [x * w / gw, y * h / gh];
    this.faults.replaceChildren();
    if (!this.layers.problems) return;
    for (const { drawn, severity } of problems) {
      for (const name of ['halo', `fault ${severity}`]) {
        for (const [a, b] of drawn.lines ?? []) this.faults.append(this.line(at(a), at(b), name));
        for (const [a, b] of drawn.cure ?? []) this.faults.append(this.line(at(a), at(b), `${name} cure`));
        for (const p of drawn.points ?? []) this.faults.append(this.dot(at(p), fault, name));
      }
    }
  }

  view() {
    const [x0, y0, x1, y1] = this.box, { zoom } = this;
    const w = (x1 - x0) / zoom, h = (y1 - y0) / zoom;
    const clamp = (v, low, high) => Math.min(Math.max(v, low), high);
    const [cx, cy] = this.center ?? [(x0 + x1) / 2, (y0 + y1) / 2];
    this.center = [clamp(cx, x0 + w / 2, x1 - w / 2), clamp(cy, y0 + h / 2, y1 - h / 2)];
    const [ax, ay] = this.at([this.center[0] + (this.back ? w : -w) / 2, this.center[1] + h / 2]);
    this.root.setAttribute('viewBox', `${ax} ${ay} ${w * unit} ${h * unit}`);
    this.board.classList.toggle('near', zoom > 1);
  }

  scale(factor, about) {
    if (!this.model) return;
    const old = this.zoom;
    this.zoom = Math.min(Math.max(factor ? old * factor : 1, 1), 40);
    const [cx, cy] = this.center;
    if (about) this.center = [about[0] + (cx - about[0]) * old / this.zoom, about[1] + (cy - about[1]) * old / this.zoom];
    this.repaint();
  }

  // under is the point of the block under the pointer.
  under(e) {
    const at = new DOMPoint(e.clientX, e.clientY).matrixTransform(this.root.getScreenCTM().inverse());
    const [w, h] = this.model.size.finished;
    return [this.back ? w - at.x / unit : at.x / unit, h - at.y / unit];
  }

  // drag moves the drawing where it is larger than its board.
  drag() {
    let last = null;
    this.root.addEventListener('pointerdown', (e) => {
      this.dragged = false;
      if (this.zoom > 1) last = this.under(e);
    });
    this.root.addEventListener('pointermove', (e) => {
      if (!last) return;
      const now = this.under(e);
      if (!this.dragged && Math.hypot(e.movementX, e.movementY) < 2) return;
      this.dragged = true;
      this.center = [this.center[0] + last[0] - now[0], this.center[1] + last[1] - now[1]];
      this.view();
    });
    for (const end of ['pointerup', 'pointerleave', 'pointercancel']) this.root.addEventListener(end, () => { last = null; });
  }
}

// bright reports whether dark letters read better on a color (the relative
// luminance of WCAG 2, at which both contrasts are equal).
function bright(color) {
  const part = (i) => {
    const c = parseInt(color.slice(i, i + 2), 16) / 255;
    return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
  };
  return 0.2126 * part(1) + 0.7152 * part(3) + 0.0722 * part(5) > 0.179;
}
