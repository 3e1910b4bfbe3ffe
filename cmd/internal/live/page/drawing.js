// The block, drawn: sides, layers, zoom, and how far it is sewn.
import { apart, bounds, inches, length, middle, room } from './model.js';

const unit = 100; // of the drawing, for one inch
const space = 'http://www.w3.org/2000/svg';

// Sizes on the screen, in pixels: of the smallest and the largest label of a
// space, of other labels, of arrows and of marks.
const smallest = 8, largest = 17, words = 12.5, arrows = 26, end = 3, fault = 9;

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
    const [w, h] = model.size.finished;
    this.gap = model.gaps.length ? Math.min(w, h) * 0.09 : 0;
    const first = apart(model, 0, this.gap);
    const [x0, y0, x1, y1] = bounds(model.copies.flatMap((c) => c.outline.map(([x, y]) => [x + first[c.index][0], y + first[c.index][1]])));
    const edge = Math.max(w, h) * 0.03;
    this.box = [Math.min(0, x0) - edge, Math.min(0, y0) - edge, Math.max(w, x1) + edge, Math.max(h, y1) + edge];
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

  paint() {
    const { model, layers } = this;
    this.polygons = []; this.groups = []; this.numbers = [];
    for (const copy of model.copies) {
      const group = svg('g', {});
      for (const p of copy.pieces) {
        const polygon = svg('polygon', { points: this.points(p.polygon), class: 'piece', 'data-piece': p.index });
        this.polygons.push(polygon);
        group.append(polygon);
      }
      if (layers.sections) group.append(svg('polygon', { points: this.points(copy.outline), class: 'section' }));
      for (const p of copy.pieces) {
        if (layers.seams && p.seam) group.append(...this.chord(p.seam));
      }
      for (const p of copy.pieces) this.numbers.push(layers.numbers ? this.number(p, group) : null);
      if (layers.sections && !layers.numbers) {
        const size = Math.min(room(copy.outline, middle(copy.outline)) * 0.9, 1.5 * largest * this.pixel);
        const [x, y] = middle(copy.outline);
        const aside = layers.arrows ? 0.6 * size + arrows * this.pixel * 0.3 : 0; // the arrow has the middle
        if (size > smallest * this.pixel) group.append(this.plate(copy.section.name, [x + (this.back ? -aside : aside), y], '', size));
      }
      if (layers.arrows) group.append(...this.arrow(copy));
      this.groups.push(group);
    }
    this.over = svg('g', {});
    this.faults = svg('g', {});
    this.root.replaceChildren(...this.groups, this.over, this.faults);
    this.dress(this.colors);
    this.sew(this.sewn ?? Infinity, this.chosen ?? -1);
    this.mark(this.marked ?? []);
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

  // arrow points to where the top of the section, as it is printed, lies.
  arrow(copy) {
    const [mx, my] = middle(copy.outline);
    const size = Math.min(room(copy.outline, [mx, my]) * 0.8, arrows * this.pixel);
    const angle = copy.turn * Math.PI / 180, up = [-Math.sin(angle), Math.cos(angle)], side = [up[1], -up[0]];
    const point = (a, b) => [mx + size * (a * up[0] + b * side[0]), my + size * (a * up[1] + b * side[1])];
    const shape = [point(1, 0), point(0.2, 0.45), point(0.2, 0.14), point(-0.9, 0.14), point(-0.9, -0.14), point(0.2, -0.14), point(0.2, -0.45)];
    return [svg('polygon', { points: this.points(shape), class: 'turn' })];
  }

  // dress gives every piece its cloth.
  dress(colors) {
    this.colors = colors;
    for (const p of this.model.pieces) this.fill(p);
  }

  fill(p) {
    const sewn = p.index < this.doneSteps;
    const polygon = this.polygons[p.index], color = this.colors.get(p.piece.fabric) ?? '#888888';
    if (sewn || this.doneSteps === undefined) polygon.setAttribute('fill', color);
    else polygon.removeAttribute('fill');
    this.numbers[p.index]?.setAttribute('fill', !sewn && this.doneSteps !== undefined ? 'currentColor' : bright(color) ? '#14181a' : '#ffffff');
  }

  // sew shows the first steps done and the last of them marked.
  sew(steps, chosen) {
    const { model } = this;
    const done = Math.min(steps, model.steps.length), whole = done === model.steps.length;
    this.sewn = steps; this.chosen = chosen; this.doneSteps = done;
    const joins = Math.max(0, done - model.pieces.length);
    const shift = apart(model, joins, whole ? 0 : this.gap);
    this.groups.forEach((g, i) => {
      const x = (this.back ? -1 : 1) * shift[i][0] * unit, y = -shift[i][1] * unit;
      if (x || y) g.setAttribute('transform', `translate(${x.toFixed(2)} ${y.toFixed(2)})`);
      else g.removeAttribute('transform');
    });
    const now = whole ? null : model.steps[done - 1];
    for (const p of model.pieces) {
      this.polygons[p.index].setAttribute('class', p.index >= done ? 'piece unsewn' : 'piece');
      this.fill(p);
    }
    this.over.replaceChildren();
    if (now?.piece?.seam) this.over.append(this.moved(shift[now.piece.copy.index], ...this.chord(now.piece.seam)));
    if (now?.join) this.over.append(this.moved(shift[now.join.left[0] ?? now.join.right[0]] ?? [0, 0], this.line(now.join.from, now.join.to, 'join now')));
    if (whole && this.layers.joins) this.joins();
    const p = model.pieces[chosen];
    if (!p) return;
    const points = this.points(p.polygon);
    this.over.append(this.moved(shift[p.copy.index], svg('polygon', { points, class: 'halo' }),
      svg('polygon', { points, class: 'chosen', 'data-chosen': p.index }), ...(p.seam ? this.chord(p.seam) : [])));
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
