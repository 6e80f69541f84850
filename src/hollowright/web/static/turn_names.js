// Names beside the turned picture: a leader from each part's right-hand outline to its name.

const SVG = "http://www.w3.org/2000/svg";
export const ELBOW = 16, SHELF = 9, SPACE = 4; // from the parts to the names, as the drawing has them
const ARROW = [9, 1.7]; // long, half as wide: a leader that ends on an outline has an arrowhead

// Levels as near as can be to those wanted, none nearer to another than the pitch.
export const apart = (wanted, pitch, high) => {
  const order = wanted.map((_, i) => i).sort((i, j) => wanted[i] - wanted[j]);
  const blocks = [];
  order.forEach((i, rank) => {
    let [mean, count] = [wanted[i] - rank * pitch, 1];
    while (blocks.length && blocks.at(-1)[0] > mean) {
      const [below, members] = blocks.pop();
      mean = (mean * count + below * members) / (count + members);
      count += members;
    }
    blocks.push([mean, count]);
  });
  const top = high - pitch / 2 - (order.length - 1) * pitch;
  const level = blocks.flatMap(([mean, count]) => Array(count).fill(Math.max(pitch / 2, Math.min(top, mean))));
  const placed = [];
  order.forEach((i, rank) => { placed[i] = level[rank] + rank * pitch; });
  return placed;
};

// The rightmost dot of each solid that is seen, and how much of it is seen: [x, y, dots]. A dot of
// the marks is so many of the picture's.
export const outermost = (dots, width, height, count, coarse) => {
  const found = Array.from({ length: count }, () => ({ x: -1, ys: [], dots: 0 }));
  for (let x = width - 1; x >= 0; x--) {
    for (let y = 0; y < height; y++) {
      const mark = dots[4 * (y * width + x)];
      if (!mark) continue;
      const one = found[mark - 1];
      one.dots += 1;
      if (one.x < 0) one.x = x;
      if (one.x === x) one.ys.push(y);
    }
  }
  return found.map(({ x, ys, dots: seen }) => (
    x < 0 ? null : [coarse * (x + 0.75), coarse * (height - 0.5 - ys[ys.length >> 1]), seen]));
};

export class Names {
  constructor(stage) {
    this.box = document.createElement("div");
    this.box.className = "turn-names";
    this.box.setAttribute("aria-hidden", "true"); // the table of parts says them
    this.lines = document.createElementNS(SVG, "svg");
    this.box.append(this.lines);
    stage.append(this.box);
    this.labels = [];
  }

  // One name for all parts that are called the same.
  take(names) {
    this.labels.forEach(({ label }) => label.remove());
    this.of = names;
    this.labels = [...new Set(names)].map((name) => {
      const label = document.createElement("span");
      label.textContent = name;
      this.box.append(label);
      return { name, label };
    });
    this.measure();
  }

  measure() {
    const sizes = this.labels.map(({ label }) => [label.offsetWidth, label.offsetHeight]);
    this.wide = Math.ceil(Math.max(0, ...sizes.map(([wide]) => wide)));
    this.pitch = Math.max(1, ...sizes.map(([, high]) => high)) + 2;
  }

  get room() { return this.labels.length ? ELBOW + SHELF + SPACE + this.wide : 0; }

  hide() { this.box.hidden = true; }

  show(ends, column, high, strength) {
    this.box.hidden = false;
    this.box.style.opacity = strength;
    const shown = this.labels.map(({ name, label }) => {
      const mine = ends.filter((end, i) => end && this.of[i] === name).sort((a, b) => b[2] - a[2]);
      label.hidden = !mine.length;
      return { label, end: mine[0] };
    }).filter(({ end }) => end);
    const pitch = Math.min(this.pitch, high / Math.max(1, shown.length));
    const levels = apart(shown.map(({ end }) => end[1] - 12), pitch, high);
    this.lines.replaceChildren(...shown.flatMap(({ label, end: [x, y] }, i) => {
      label.style.left = `${column + SHELF + SPACE}px`;
      label.style.top = `${levels[i]}px`;
      return leader(x, y, column, levels[i]);
    }));
  }
}

const path = (line, name) => {
  const made = document.createElementNS(SVG, "path");
  made.setAttribute("d", line);
  made.setAttribute("class", name);
  return made;
};

const leader = (x, y, column, level) => {
  const [long, half] = ARROW;
  const far = Math.hypot(column - x, level - y) || 1;
  const [dx, dy] = [(column - x) / far, (level - y) / far];
  const [ax, ay] = [x + long * dx, y + long * dy];
  return [
    path(`M${x} ${y}L${column} ${level}h${SHELF}`, "leader"),
    path(`M${x} ${y}L${ax - half * dy} ${ay + half * dx}L${ax + half * dy} ${ay - half * dx}Z`, "arrow"),
  ];
};
