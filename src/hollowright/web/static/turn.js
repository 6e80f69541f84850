// The picture turned by dragging or by keys, pulled apart and together; without WebGL it stays flat.
import { Draughtsman } from "./turn_draw.js";
import { ELBOW, Names, outermost } from "./turn_names.js";

const FIRST = { turn: Math.atan2(Math.sqrt(7), 1), tilt: Math.asin(1 / 3) }; // the printed picture's dimetric view
const STEP = Math.PI / 36; // one press of a key
const PER_DOT = 0.01; // a drag's turn for each dot of the screen
const EASE = 70; // how fast it comes to where it is wanted [ms]
const MARGIN = 8; // round the picture [dots]
const COARSE = 2; // names look for their parts at every second dot
const still = matchMedia("(prefers-reduced-motion: reduce)");

const byId = (id) => document.getElementById(id);
const within = (low, x, high) => Math.max(low, Math.min(high, x));

// Rows to the right, up the paper, towards the eye; given by columns, as WebGL takes them.
const viewed = ({ turn, tilt }) => {
  const [s, c, up, level] = [Math.sin(turn), Math.cos(turn), Math.sin(tilt), Math.cos(tilt)];
  return [s, -c * up, c * level, c, s * up, -s * level, 0, level, up];
};

// Each solid with what the fit needs: its middle, how far it reaches from it, and where it goes.
const read = (scene) => scene.solids.map((solid) => {
  const positions = Float32Array.from(solid.positions, (x) => x * scene.unit);
  const low = [0, 1, 2].map(() => Infinity), high = [0, 1, 2].map(() => -Infinity);
  positions.forEach((x, i) => { low[i % 3] = Math.min(low[i % 3], x); high[i % 3] = Math.max(high[i % 3], x); });
  const middle = low.map((x, k) => (x + high[k]) / 2);
  let round = 0;
  for (let i = 0; i < positions.length; i += 3) {
    round = Math.max(round, Math.hypot(positions[i] - middle[0], positions[i + 1] - middle[1]));
  }
  return { ...solid, positions, low, high, middle, round };
});

class Picture {
  constructor(box) {
    this.box = box;
    this.stage = box.querySelector(".turn-stage");
    this.canvas = box.querySelector("canvas");
    this.slider = box.querySelector("#turn-apart");
    this.toggle = box.querySelector("#turn-hidden");
    this.pen = new Draughtsman(this.canvas);
    this.names = new Names(this.stage);
    this.solids = [];
    this.now = { ...FIRST, apart: 0 };
    this.wanted = { ...this.now };
    this.#listen();
  }

  take(scene) {
    this.solids = read(scene);
    this.pen.take(this.solids);
    this.canvas.setAttribute("aria-label", `The piece, to be turned: ${this.solids.map(({ name }) => name).join(", ")}`);
    this.box.hidden = false;
    this.box.querySelector(".turn-apart").hidden = !this.solids.some(({ shift }) => shift.some(Boolean));
    this.names.take(this.solids.map(({ name }) => name));
    this.redraw();
  }

  // Draw in the next frame, once; at once where nothing is to move.
  redraw() {
    this.box.ariaBusy = "true";
    this.frame ??= requestAnimationFrame((time) => {
      this.frame = undefined;
      const moving = this.#come(time);
      this.last = moving ? time : undefined;
      if (!this.box.hidden) this.#draw();
      if (moving) this.redraw();
      else this.box.ariaBusy = "false";
    });
  }

  // Nearer to what is wanted; whether it isn't there yet.
  #come(time) {
    const share = still.matches ? 1 : 1 - Math.exp(-Math.min(time - (this.last ?? time - 16), 100) / EASE);
    let moving = false;
    for (const name of Object.keys(this.now)) {
      const left = this.wanted[name] - this.now[name];
      const there = Math.abs(left) < 1e-3 || share === 1;
      this.now[name] = there ? this.wanted[name] : this.now[name] + share * left;
      moving ||= !there;
    }
    return moving;
  }

  #draw() {
    const { canvas, names: beside, now } = this;
    const [width, height] = [canvas.clientWidth, canvas.clientHeight];
    if (!width || !height || !this.solids.length) return;
    const dense = within(1, devicePixelRatio, 3);
    const [across, down] = [Math.round(width * dense), Math.round(height * dense)];
    if (canvas.width !== across || canvas.height !== down) {
      Object.assign(canvas, { width: across, height: down });
      beside.measure();
    }
    const look = this.#look(width, height, now.apart * beside.room);
    look.wide = dense * within(1.3, width / 270, 2);
    look.colour = getComputedStyle(canvas).color.match(/[\d.]+/g).slice(0, 3).map((x) => x / 255);
    look.slack = 0.75 * look.deep / (look.scale * dense); // a dot and a half
    look.hidden = this.toggle.checked;
    this.pen.draw(look);
    if (now.apart < 0.05) beside.hide();
    else {
      const [wide, high] = [Math.ceil(width / COARSE), Math.ceil(height / COARSE)];
      const ends = outermost(this.pen.seen(look, wide, high), wide, high, this.solids.length, COARSE);
      beside.show(ends, look.edge + ELBOW, height, within(0, 1.5 * now.apart - 0.3, 1));
    }
  }

  // Where the solids stand, and the scale at which they fit however they are turned.
  #look(width, height, room) {
    const shifts = this.solids.map(({ shift }) => shift.map((x) => x * this.now.apart));
    const [low, high] = ["low", "high"].map((end) => [0, 1, 2].map((k) =>
      Math[end === "low" ? "min" : "max"](...this.solids.map((solid, i) => solid[end][k] + shifts[i][k]))));
    const middle = low.map((x, k) => (x + high[k]) / 2);
    const round = Math.max(...this.solids.map((solid, i) => solid.round + Math.hypot(
      solid.middle[0] + shifts[i][0] - middle[0], solid.middle[1] + shifts[i][1] - middle[1])));
    const tall = Math.hypot(high[2] - low[2], 2 * round);
    const scale = Math.min((width - room - 2 * MARGIN) / (2 * round), (height - 2 * MARGIN) / tall);
    const x = (width - room) / 2;
    return {
      view: viewed(this.now), middle, shifts,
      fit: [2 * scale / width, 2 * scale / height], place: [2 * x / width - 1, 0],
      deep: 1 / tall, scale, edge: x + round * scale,
    };
  }

  #turn(turn, tilt) {
    this.wanted.turn += turn;
    this.wanted.tilt = within(-Math.PI / 2, this.wanted.tilt + tilt, Math.PI / 2);
    this.redraw();
  }

  #listen() {
    const { canvas } = this;
    const keys = { ArrowLeft: [-STEP, 0], ArrowRight: [STEP, 0], ArrowUp: [0, -STEP], ArrowDown: [0, STEP] };
    canvas.addEventListener("keydown", (event) => {
      if (event.ctrlKey || event.altKey || event.metaKey) return;
      if (event.key === "Home") Object.assign(this.wanted, FIRST, { turn: FIRST.turn + 2 * Math.PI * Math.round((this.now.turn - FIRST.turn) / (2 * Math.PI)) });
      else if (!keys[event.key]) return;
      event.preventDefault();
      this.#turn(...(keys[event.key] ?? [0, 0]));
    });
    canvas.addEventListener("pointerdown", (event) => {
      if (event.button || !event.isPrimary) return;
      canvas.setPointerCapture(event.pointerId);
      this.held = [event.clientX, event.clientY];
    });
    canvas.addEventListener("pointermove", (event) => {
      if (!this.held || !event.isPrimary) return;
      const [x, y] = this.held;
      this.held = [event.clientX, event.clientY];
      this.#turn(PER_DOT * (event.clientX - x), PER_DOT * (event.clientY - y));
      Object.assign(this.now, { turn: this.wanted.turn, tilt: this.wanted.tilt }); // a drag is followed at once
    });
    for (const end of ["pointerup", "pointercancel"]) canvas.addEventListener(end, () => { this.held = undefined; });
    this.slider.addEventListener("input", (event) => {
      event.stopPropagation();
      this.wanted.apart = this.slider.value / 100;
      this.redraw();
    });
    this.toggle.addEventListener("change", () => this.redraw());
    canvas.addEventListener("webglcontextlost", () => { this.box.hidden = true; this.lost = true; });
    new ResizeObserver(() => this.redraw()).observe(canvas);
    matchMedia("(prefers-color-scheme: dark)").addEventListener("change", () => this.redraw());
  }
}

let picture, asked, focused;

// Ask for the scene of the plan that is shown; whatever goes wrong, the flat picture stands.
const ask = async () => {
  asked?.abort();
  asked = new AbortController();
  const { signal } = asked;
  const good = document.querySelector('#plan input[name="good"]')?.value;
  if (!byId("turn") || !good) return;
  try {
    const answer = await fetch("/scene", { method: "POST", body: new URLSearchParams({ good }), signal });
    if (!answer.ok) throw new Error(answer.statusText);
    const scene = await answer.json();
    if (!scene.solids.length) throw new Error("nothing to draw");
    if (picture?.lost) picture = undefined;
    picture ??= new Picture(byId("turn"));
    picture.take(scene);
  } catch {
    if (!signal.aborted && picture) picture.box.hidden = true;
  }
};

// A new plan came: the canvas goes on in it as it was turned, until its own scene is there.
document.addEventListener("htmx:beforeSwap", () => {
  focused = picture?.box.contains(document.activeElement) ? document.activeElement : undefined;
});
document.addEventListener("htmx:afterSwap", (event) => {
  if (event.detail.target?.id !== "plan") return;
  const place = byId("turn");
  if (place && picture && !picture.lost && place !== picture.box) {
    place.replaceWith(picture.box);
    focused?.focus({ preventScroll: true });
  }
  ask();
});
document.addEventListener("htmx:afterSettle", () => picture?.redraw()); // the ink may be another
ask();
