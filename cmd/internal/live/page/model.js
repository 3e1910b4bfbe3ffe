// The pattern as the page needs it: what lies where, and in which order it is
// sewn. All places are inches, seen from the front, y up.

// block lays out one block at one size.
export function block(pattern, blockIndex, sizeIndex) {
  const written = pattern.blocks[blockIndex];
  const size = written.sizes[sizeIndex];
  const byName = new Map(size.sections.map((s) => [s.name, s]));
  const copies = size.copies.map((c, index) => {
    const section = byName.get(c.section);
    const move = motion(c.turn, c.shift);
    return { index, section, turn: c.turn, of: c.of, at: c, outline: section.outline.map(move), move, pieces: [] };
  });
  const pieces = [], steps = [];
  for (const copy of copies) {
    for (const [i, piece] of copy.section.pieces.entries()) {
      const p = {
        index: pieces.length, copy, piece, space: piece.space, written: copy.at.pieces?.[i] ?? piece,
        polygon: piece.polygon.map(copy.move),
        seam: piece.seam ? piece.seam.map(copy.move) : null,
      };
      pieces.push(p);
      copy.pieces.push(p);
      steps.push({ piece: p });
    }
  }
  for (const join of size.joins) steps.push({ join });
  return { written, size, copies, pieces, steps, gaps: gaps(size, copies.length) };
}

function motion(turn, [dx, dy]) {
  const quarter = { 0: [0, 1], 90: [1, 0], 180: [0, -1], 270: [-1, 0] }[((turn % 360) + 360) % 360];
  const [sin, cos] = quarter ?? [Math.sin(turn * Math.PI / 180), Math.cos(turn * Math.PI / 180)];
  return ([x, y]) => [cos * x - sin * y + dx, sin * x + cos * y + dy];
}

// gaps says which copies each join brings together: as a join names only those
// that lie along it, what was joined to them before is added.
function gaps(size, count) {
  const group = Array.from({ length: count }, (_, i) => [i]);
  return size.joins.map((join) => {
    const all = (side) => [...new Set(side.map((i) => group[i]))].flat();
    const left = all(join.left), right = all(join.right);
    const [dx, dy] = [join.to[0] - join.from[0], join.to[1] - join.from[1]];
    const length = Math.hypot(dx, dy) || 1;
    const both = [...left, ...right];
    for (const i of both) group[i] = both;
    return { left, right, normal: [-dy / length, dx / length] };
  });
}

// apart says how far each copy lies from its place while only the first joins
// are sewn, as multiples of half a gap, about the middle of all.
export function apart(model, sewn) {
  const shift = model.copies.map(() => [0, 0]);
  for (let j = sewn; j < model.gaps.length; j++) {
    const { left, right, normal: [nx, ny] } = model.gaps[j];
    for (const [side, sign] of [[left, 1], [right, -1]]) {
      for (const i of side) {
        shift[i][0] += sign * nx;
        shift[i][1] += sign * ny;
      }
    }
  }
  const [x0, y0, x1, y1] = bounds(shift);
  return shift.map(([x, y]) => [x - (x0 + x1) / 2, y - (y0 + y1) / 2]);
}

export function bounds(points) {
  const box = [Infinity, Infinity, -Infinity, -Infinity];
  for (const [x, y] of points) {
    box[0] = Math.min(box[0], x); box[1] = Math.min(box[1], y);
    box[2] = Math.max(box[2], x); box[3] = Math.max(box[3], y);
  }
  return box;
}

// middle is a point well inside a polygon: its centroid, where that is inside.
export function middle(polygon) {
  let area = 0, x = 0, y = 0;
  polygon.forEach(([ax, ay], i) => {
    const [bx, by] = polygon[(i + 1) % polygon.length];
    const cross = ax * by - bx * ay;
    area += cross; x += (ax + bx) * cross; y += (ay + by) * cross;
  });
  return area ? [x / (3 * area), y / (3 * area)] : polygon[0];
}

// room is about how large a circle lies in a polygon about a point.
export function room(polygon, [px, py]) {
  let least = Infinity;
  polygon.forEach(([ax, ay], i) => {
    const [bx, by] = polygon[(i + 1) % polygon.length];
    const length = Math.hypot(bx - ax, by - ay);
    if (length > 0) least = Math.min(least, Math.abs((bx - ax) * (py - ay) - (by - ay) * (px - ax)) / length);
  });
  return least;
}

// inside reports whether a point lies in a polygon: whether a ray from it crosses
// an odd number of sides.
export function inside(polygon, [px, py]) {
  let odd = false;
  polygon.forEach(([ax, ay], i) => {
    const [bx, by] = polygon[(i + 1) % polygon.length];
    if ((ay > py) !== (by > py) && px < ax + (py - ay) * (bx - ax) / (by - ay)) odd = !odd;
  });
  return odd;
}

// busiest lists the places where most pieces meet, and how many: there the block is
// thickest, and points are hardest to match. One place where fewer than five meet
// is like any other.
export function busiest(model) {
  const near = 0.01, corners = new Map(); // inches; no two corners that are sewn lie so near
  for (const p of model.pieces) {
    for (const at of p.polygon) {
      const key = at.map((v) => Math.round(v / near)).join();
      const found = corners.get(key) ?? { at, corners: 0 };
      found.corners++;
      corners.set(key, found);
    }
  }
  const most = [...corners.values()].sort((a, b) => b.corners - a.corners).slice(0, 40);
  const touches = (p, at) => p.polygon.some((a, i) => off(at, a, p.polygon[(i + 1) % p.polygon.length]) < near);
  for (const place of most) place.pieces = model.pieces.filter((p) => touches(p, place.at)).length;
  const top = Math.max(0, ...most.map((place) => place.pieces));
  return top < 5 ? [] : most.filter((place, i) => place.pieces === top
    && !most.slice(0, i).some((other) => length([other.at, place.at]) < 2 * near));
}

// off is how far a point lies from a stroke.
function off([px, py], [ax, ay], [bx, by]) {
  const dx = bx - ax, dy = by - ay, t = Math.min(1, Math.max(0, ((px - ax) * dx + (py - ay) * dy) / (dx * dx + dy * dy || 1)));
  return Math.hypot(px - ax - t * dx, py - ay - t * dy);
}

// partial says that a seam is sewn in two goes.
export function partial(join) {
  if (join.begins) return `, part of the way: the rest is join ${join.begins}`;
  return join.begun ? `, the rest of join ${join.begun}` : '';
}

export const length = ([[ax, ay], [bx, by]]) => Math.hypot(bx - ax, by - ay);

// inches is a length in words, to the nearest sixteenth; centimeters where the
// pattern is metric.
export function inches(l, metric) {
  if (metric) return `${Math.round(l * 25.4) / 10} cm`;
  let n = Math.round(l * 16), d = 16;
  while (n % 2 === 0 && d > 1) { n /= 2; d /= 2; }
  const whole = Math.floor(n / d), rest = n % d;
  if (rest === 0) return `${whole} in`;
  return whole ? `${whole} ${rest}/${d} in` : `${rest}/${d} in`;
}

export function sizeWords([w, h], metric) {
  return Math.abs(w - h) < 0.001 ? finished(w, metric) : `${finished(w, metric)} x ${finished(h, metric)}`;
}

// finished is a size as it was written: inches where it is even in inches.
function finished(l, metric) {
  const sixteenths = l * 16, mm = l * 25.4;
  if (!metric && Math.abs(sixteenths - Math.round(sixteenths)) < 0.004) return inches(l);
  if (Math.abs(mm - Math.round(mm)) < 0.01) return inches(l, true);
  return `${Math.round(l * 100) / 100} in`;
}
