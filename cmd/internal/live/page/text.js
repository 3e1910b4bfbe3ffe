// The text of the pattern and of the files it uses, with lines marked.

export class Text {
  constructor(root, picker, choose) {
    this.root = root;
    this.picker = picker;
    this.file = '';
    this.line = 0;
    picker.addEventListener('change', () => this.open(picker.value));
    root.addEventListener('click', (e) => {
      const at = e.target.closest('[data-line]');
      if (at) choose(this.file, Number(at.dataset.line));
    });
    root.addEventListener('keydown', (e) => {
      const by = { ArrowDown: 1, ArrowUp: -1, PageDown: 12, PageUp: -12 }[e.key];
      if (!by || !this.lines.length) return;
      e.preventDefault();
      choose(this.file, Math.min(Math.max(this.line + by, 1), this.lines.length));
    });
  }

  // show takes the texts, and the problems in them.
  show(sources, problems) {
    this.sources = sources;
    this.problems = problems;
    this.picker.replaceChildren(...sources.map((s) => new Option(s.name || s.file, s.name)));
    this.picker.hidden = sources.length < 2;
    this.open(sources.some((s) => s.name === this.file) ? this.file : sources[0]?.name ?? '');
  }

  open(name) {
    const top = name === this.file ? this.root.scrollTop : 0;
    this.file = name;
    this.picker.value = name;
    const source = this.sources.find((s) => s.name === name);
    const faults = new Map();
    for (const p of this.problems) {
      if (p.at && source && p.at.file === source.file) {
        const line = p.at.start.line;
        faults.set(line, [...(faults.get(line) ?? []), p]);
      }
    }
    const old = this.lines ?? [];
    this.lines = (source ? source.text.split('\n') : []).map((text, i) => {
      const at = faults.get(i + 1), key = at ? '' : text; // a line with a problem is made anew
      if (key && old[i]?.key === key) return old[i];
      const line = row(i + 1, text.replace(/\r$/, ''), at);
      line.key = key;
      return line;
    });
    if (old.length !== this.lines.length) this.root.replaceChildren(...this.lines);
    else this.lines.forEach((line, i) => { if (line !== old[i]) old[i].replaceWith(line); });
    this.root.scrollTop = top;
    this.mark(this.line, false);
  }

  // go opens a file at a line and marks it.
  go(file, line) {
    if (file !== this.file && this.sources.some((s) => s.name === file)) this.open(file);
    this.mark(line, true);
  }

  mark(line, scroll) {
    this.lines[this.line - 1]?.classList.remove('chosen');
    this.lines[this.line - 1]?.removeAttribute('aria-selected');
    this.line = line;
    const at = this.lines[line - 1];
    if (!at) return this.root.removeAttribute('aria-activedescendant');
    at.classList.add('chosen');
    at.setAttribute('aria-selected', 'true');
    this.root.setAttribute('aria-activedescendant', at.id);
    if (!scroll) return;
    const top = at.offsetTop - this.root.offsetTop, view = this.root;
    if (top < view.scrollTop + 20 || top > view.scrollTop + view.clientHeight - 50) view.scrollTop = top - view.clientHeight / 2.5;
  }
}

function row(number, text, faults) {
  const line = document.createElement('div');
  line.id = `line-${number}`;
  line.dataset.line = number;
  line.setAttribute('role', 'option');
  const n = document.createElement('i'), words = document.createElement('span');
  n.textContent = number;
  line.append(n, words);
  if (!faults) {
    words.textContent = text || ' ';
    return line;
  }
  line.classList.add('faulty');
  line.title = faults.map((p) => p.message).join('\n');
  const worst = faults.find((p) => p.severity === 'error') ?? faults[0];
  const from = worst.at.start.utf16;
  const to = worst.at.end.line > number ? text.length : Math.max(worst.at.end.utf16, from + 1);
  const mark = document.createElement('mark');
  mark.className = worst.severity;
  mark.textContent = text.slice(from, to) || ' ';
  words.append(text.slice(0, from), mark, text.slice(to));
  return line;
}

// moved finds a line of the last good text again in the text as it is now: the
// nearest line that says the same.
export function moved(line, before, now) {
  const old = before.split('\n')[line - 1], lines = now.split('\n');
  for (let by = 0; by < lines.length; by++) {
    for (const at of [line + by, line - by]) if (lines[at - 1] === old) return at;
  }
  return line;
}
