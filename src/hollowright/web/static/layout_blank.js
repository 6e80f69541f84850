// One blank of the picture: where it lies, moved, turned and turned over about its middle.
const radians = (degrees) => degrees * Math.PI / 180;
const sides = (turn) => { // exact at the quarters, as the server has them
  const quarter = { 0: [1, 0], 90: [0, 1], 180: [-1, 0], 270: [0, -1] }[((turn % 360) + 360) % 360];
  return quarter ?? [Math.cos(radians(turn)), Math.sin(radians(turn))];
};
const same = (a, b) => ["x", "y", "turn", "over"].every((key) => a[key] === b[key]);
const tidy = (x) => Math.round(x * 1e4) / 1e4; // a tenth of a micrometre

// The sheet's picture under a pointer.
export const sheetAt = ({ clientX: x, clientY: y }) => [...document.querySelectorAll("svg.lay")].find((svg) => {
  const box = svg.getBoundingClientRect();
  return x >= box.left && x <= box.right && y >= box.top && y <= box.bottom;
});

// A pointer's place on a sheet in its own millimetres.
const onSheet = (svg, event) => {
  const point = new DOMPoint(event.clientX, event.clientY).matrixTransform(svg.getScreenCTM().inverse());
  return [point.x + Number(svg.dataset.lowX), Number(svg.dataset.high) - point.y + Number(svg.dataset.lowY)];
};

export class Blank {
  constructor(element) {
    const { item, x, y, turn, over, turns, mayOver, name } = element.dataset;
    Object.assign(this, { element, item, name, mayOver: Boolean(mayOver), turns: JSON.parse(turns) });
    this.sheet = element.ownerSVGElement;
    this.shape = element.querySelector("use");
    this.words = element.querySelector(".words");
    const box = this.shape.getBBox();
    this.middle = [box.x + box.width / 2, -(box.y + box.height / 2)];
    this.reach = JSON.parse(document.querySelector(this.shape.getAttribute("href")).dataset.reach);
    this.first = { x: Number(x), y: Number(y), turn: Number(turn), over: Boolean(over) };
    this.now = { ...this.first };
    this.laid = this.first; // as the server laid it
    this.transforms = [...element.querySelectorAll("[transform]")].map((each) => [each, each.getAttribute("transform")]);
  }

  get pinned() { return this.element.classList.contains("pinned"); }

  get loose() { return !same(this.now, this.first); }

  get told() {
    const [x, y] = this.from.map((value, k) => value - Number(k ? this.sheet.dataset.lowY : this.sheet.dataset.lowX));
    const { turn, over } = this.now;
    const turned = `${turn ? `, turned ${Math.round(turn * 10) / 10}°` : ""}${over ? ", turned over" : ""}`;
    const state = this.loose ? "; not pinned there yet" : this.pinned ? "; pinned" : "";
    return `${this.name}: ${this.reach.length === 1 ? "middle " : ""}x ${x.toFixed(1)}, y ${y.toFixed(1)} mm${turned}${state}`;
  }

  // Whether a pin, as the page carries it, is this blank's.
  is([item, sheet, x, y]) {
    return item === this.item && sheet === this.sheet.dataset.sheet &&
      Math.hypot(x - this.first.x, y - this.first.y) < 1e-3;
  }

  // As a pin, as the page carries it.
  row(sheet) {
    const { x, y, turn, over } = this.now;
    return [this.item, sheet.dataset.sheet, tidy(x), tidy(y), turn, over, true];
  }

  #placed([a, b]) { // a point of its own, as it lies now
    const { x, y, turn, over } = this.now, [c, s] = sides(turn), across = over ? -a : a;
    return [c * across - s * b + x, s * across + c * b + y];
  }

  // Where it is measured to: a disc's middle, else its left and lowest edge.
  get from() {
    const points = this.reach.map((each) => this.#placed(each));
    return [0, 1].map((k) => Math.min(...points.map((each) => each[k])));
  }

  centre() { return this.#placed(this.middle); }

  at(event) { return onSheet(this.sheet, event); }

  move(dx, dy) {
    this.now.x += dx;
    this.now.y += dy;
    this.draw();
  }

  lift() {
    const { element } = this;
    element.classList.add("held");
    while (element.nextSibling) element.parentNode.insertBefore(element.nextSibling, element); // above the others; it keeps the focus
  }

  // Held over a sheet of another scale it is drawn as large as it would lie there.
  sized(event) {
    const there = sheetAt(event) ?? this.sheet, inverse = this.sheet.getScreenCTM().inverse();
    const scale = there.getScreenCTM().a * inverse.a;
    const { x, y } = new DOMPoint(event.clientX, event.clientY).matrixTransform(inverse);
    if (Math.abs(scale - 1) < 1e-3) this.element.removeAttribute("transform");
    else this.element.setAttribute("transform", `translate(${x} ${y}) scale(${scale}) translate(${-x} ${-y})`);
  }

  putDown() {
    this.element.classList.remove("held");
    this.element.removeAttribute("transform");
  }

  turnOn(step) {
    const { turns } = this, turn = ((this.now.turn % 360) + 360) % 360;
    const next = turns ? turns.map((each) => ((each % 360) + 360) % 360).sort((a, b) => a - b) : [];
    this.#aboutMiddle({ turn: turns ? next.find((each) => each > turn + 1e-6) ?? next[0] : (turn + step) % 360 });
  }

  turnOver() { this.#aboutMiddle({ over: !this.now.over }); }

  #aboutMiddle(change) {
    const wanted = this.centre();
    Object.assign(this.now, change);
    const centre = this.centre();
    this.move(wanted[0] - centre[0], wanted[1] - centre[1]);
  }

  // Let go over another sheet: as far from the pointer there as it is here.
  over(sheet, event) {
    const [here, there] = [onSheet(this.sheet, event), onSheet(sheet, event)];
    const { x, y } = this.now;
    if (sheet !== this.sheet) Object.assign(this.now, { x: there[0] + x - here[0], y: there[1] + y - here[1] });
    return this;
  }

  draw() {
    const { x, y, turn, over } = this.now, [c, s] = sides(turn), side = over ? -1 : 1;
    const { lowX, lowY, high } = this.sheet.dataset;
    const place = [x - Number(lowX), Number(high) - (y - Number(lowY))];
    const matrix = `matrix(${[c * side, -s * side, s, c, ...place].join(" ")})`;
    const [across, up] = this.centre();
    const middle = `translate(${across - Number(lowX)} ${Number(high) - (up - Number(lowY))})`;
    const asLaid = same(this.now, this.laid);
    for (const [each, was] of this.transforms) {
      const now = each === this.shape ? matrix : was.replace(/^translate\([^)]*\)/, middle);
      each.setAttribute("transform", asLaid ? was : now);
    }
    this.element.classList.toggle("loose", this.loose);
  }

  // It is asked to lie where it is now: that is its place, unless the server refuses.
  settle() {
    this.was = this.first;
    this.first = { ...this.now };
    this.draw();
  }

  refuse() {
    this.first = this.was ?? this.first;
    this.restore();
  }

  restore() {
    this.now = { ...this.first };
    this.putDown();
    this.draw();
  }
}
