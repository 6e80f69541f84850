// Blanks dragged, nudged, turned and pinned on their sheets; the server lays the rest round them.
import { Blank, sheetAt } from "./layout_blank.js";

const NUDGE = 1, FINE = 0.1; // a press of an arrow key [mm]
const TURN = 15, FINE_TURN = 1; // a press of R where any turn will do [deg]
const A_CLICK = 4; // a pointer that moved less only chose [dots]
const KEPT = "hollowright.layout";
const byId = (id) => document.getElementById(id);
const form = byId("lay"), tools = byId("tools"), why = byId("why");
document.documentElement.classList.add("js");

let chosen, held; // the blank that keys move, and what the pointer holds
let asking; // pins and button that wait to be sent: what comes in before that doesn't undo them
let unsaid = ""; // what is still to be said once the page has come to rest
let missed; // something came in under the hand that moved a blank, and wasn't shown

// ---- what is sent: pins, and which button was pressed
const pins = () => JSON.parse(asking?.pins ?? byId("pins").value);
const send = (doing = "", rows = pins()) => {
  asking = { doing, pins: JSON.stringify(rows) };
  htmx.trigger(form, "lay");
};
document.addEventListener("htmx:configRequest", (event) => {
  if (event.detail.elt !== form) return;
  event.detail.path = "/layout/lay"; // wherever the button leads that was pressed last
  tell("");
  if (!asking) { if (chosen?.loose && !held) chosen.restore(); return; }
  const { parameters } = event.detail;
  delete parameters.do;
  Object.assign(parameters, asking);
  asking = missed = undefined;
});
const say = (text) => {
  const said = document.createElement("p");
  said.className = "stale";
  said.textContent = text;
  byId("said").replaceChildren(said);
};
const pin = (blank, sheet = blank.sheet) => {
  const others = pins().filter((each) => !blank.is(each));
  stays = blank.row(sheet);
  blank.settle();
  send("", [...others, stays]);
};
const unpin = (blank) => {
  const number = pins().findIndex((each) => blank.is(each));
  if (number >= 0) send(`unpin:${number}`);
};

// ---- the bar of tools tells of the blank that is chosen, and why something can't be
const tell = (text) => { why.textContent = text; show(); };
const show = () => {
  tools.hidden = !chosen && !why.textContent;
  tools.classList.toggle("none-chosen", !chosen);
  if (!chosen) { byId("which").textContent = ""; return; }
  byId("which").textContent = chosen.told;
  byId("tool-over").hidden = !chosen.mayOver;
  byId("tool-unpin").hidden = !chosen.pinned;
  byId("tool-pin").textContent = chosen.loose ? "Pin it there" : "Pin it here";
};
const choose = (element) => {
  if (chosen?.element === element) return;
  if (chosen?.loose) chosen.restore();
  chosen = element && new Blank(element);
  tell("");
};
const turned = (fine) => { chosen.turnOn(fine ? FINE_TURN : TURN); tell(""); };
const flipped = () => { if (chosen.mayOver) { chosen.turnOver(); tell(""); } };
tools.addEventListener("click", (event) => {
  const tool = event.target.closest("button")?.id;
  if (tool === "tool-close") { choose(null); tell(""); return; }
  if (!chosen || !tool) return;
  if (tool === "tool-turn") turned(event.shiftKey);
  if (tool === "tool-over") flipped();
  if (tool === "tool-pin") pin(chosen);
  if (tool === "tool-unpin") unpin(chosen);
});

const letGo = (reason = "") => {
  held = undefined;
  chosen.restore();
  unsaid = missed ? reason : "";
  if (missed) send();
  tell(reason);
};

// ---- by keyboard
const arrows = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] };
document.addEventListener("focusin", (event) => {
  const element = event.target.closest?.(".blank");
  if (element) choose(element);
});
document.addEventListener("keydown", (event) => {
  if (!event.target.closest?.(".blank") || event.ctrlKey || event.altKey || event.metaKey) return;
  const step = event.shiftKey ? FINE : NUDGE;
  const way = arrows[event.key];
  if (way) chosen.move(way[0] * step, way[1] * step);
  else if (event.key === "r" || event.key === "R") turned(event.shiftKey);
  else if (event.key === "f" || event.key === "F") flipped();
  else if (event.key === "Enter" || event.key === " ") pin(chosen);
  else if (event.key === "Escape") letGo();
  else if (event.key === "Delete" || event.key === "Backspace") unpin(chosen);
  else return;
  event.preventDefault();
  if (way) tell(""); else show();
});

// ---- by mouse, pen or finger
document.addEventListener("pointerdown", (event) => {
  const element = event.target.closest(".blank");
  if (!element || event.button || !event.isPrimary) return;
  event.preventDefault();
  element.focus({ preventScroll: true });
  choose(element);
  element.setPointerCapture(event.pointerId);
  held = { from: [event.clientX, event.clientY], last: chosen.at(event), far: false };
});
document.addEventListener("click", (event) => { // elsewhere; a finger that scrolls the page clicks nothing
  if (!event.target.closest(".blank") && !tools.contains(event.target)) choose(null);
});
document.addEventListener("touchstart", (event) => {
  if (event.target.closest(".blank")) event.preventDefault(); // the finger moves the blank, not the page
}, { passive: false });
document.addEventListener("pointermove", (event) => {
  if (!held || !event.isPrimary) return;
  held.far ||= Math.hypot(event.clientX - held.from[0], event.clientY - held.from[1]) >= A_CLICK;
  if (!held.far) return;
  const now = chosen.at(event);
  chosen.lift();
  chosen.move(now[0] - held.last[0], now[1] - held.last[1]);
  chosen.sized(event);
  held.last = now;
  tell("");
});
const drop = (event) => {
  if (!held || !event.isPrimary) return;
  const moved = held.far;
  held = undefined;
  chosen.putDown();
  if (!moved) { if (missed) send(); return; }
  const sheet = event.type === "pointerup" && sheetAt(event);
  if (!sheet) { letGo("There is no sheet there: the blank lies where it lay."); return; }
  if (sheet.closest(".batch") !== chosen.element.closest(".batch")) {
    letGo("That sheet is of another metal, thickness or temper: the blank lies where it lay.");
    return;
  }
  pin(chosen.over(sheet, event), sheet);
};
for (const end of ["pointerup", "pointercancel"]) document.addEventListener(end, drop);

// ---- buttons that lay out anew do so in place; files and downloads are sent as forms are
const STAYS = /^(lay|anew|pin|unpin.*)$/;
form.addEventListener("submit", (event) => {
  const button = event.submitter;
  if (button?.name === "do" && STAYS.test(button.value)) { event.preventDefault(); send(button.value); }
  else if (!button || (button.name !== "do" && !button.hasAttribute("formaction"))) { event.preventDefault(); send(); }
});
document.addEventListener("change", (event) => {
  if (event.target.closest("[data-quiet]")) event.stopPropagation();
}, true);

// ---- better sheets come while a person works: not under the hand that moves a blank
const busy = () => held || chosen?.loose;
document.addEventListener("htmx:beforeSwap", (event) => {
  if (!busy()) return;
  event.detail.shouldSwap = false;
  missed ||= event.detail.target?.id === "laid";
});
document.addEventListener("notso", (event) => { // the server refused: all stays as it lay
  stays = undefined;
  chosen?.refuse();
  tell(event.detail.why ?? "");
});

// ---- what a person looks at stays where it is on the screen, and what they typed stays typed
let view, typed = [];
const holdView = () => {
  const sheets = [...document.querySelectorAll(".laid-sheet")];
  const seen = chosen?.element.closest(".laid-sheet") ??
    sheets.find((each) => each.getBoundingClientRect().bottom > 0 && each.getBoundingClientRect().top < innerHeight);
  view = { y: scrollY, sheet: seen?.id, top: seen?.getBoundingClientRect().top };
  typed = [...document.querySelectorAll(".by-numbers [data-quiet]")].map((each) => [each.id, each.value, each.checked]);
};
const settleView = () => {
  for (const [id, value, checked] of typed) {
    const box = byId(id);
    if (!box || (box.options && ![...box.options].some((each) => each.value === value))) continue;
    box.value = value;
    if (box.type === "checkbox") box.checked = checked;
  }
  typed = [];
  if (!view) return;
  const now = view.sheet && byId(view.sheet)?.getBoundingClientRect().top;
  const top = now === undefined ? view.y : scrollY + now - view.top;
  if (Math.abs(top - scrollY) >= 1) scrollTo({ top, behavior: "instant" });
  view = undefined;
};
document.addEventListener("htmx:beforeSwap", holdView);
document.addEventListener("htmx:oobBeforeSwap", () => { if (!view) holdView(); });

let stays; // the pin whose blank keeps the focus, whatever number it gets
const stood = () => {
  if (document.activeElement?.closest?.(".blank") === chosen?.element && chosen?.pinned) stays ??= chosen.row(chosen.sheet);
};
const stand = () => {
  const heard = byId("search")?.dataset.said ?? "";
  if (byId("search-said").textContent !== heard) byId("search-said").textContent = heard;
  if (form.elements.piece) keep();
  if (chosen && !chosen.element.isConnected) chosen = undefined;
  const row = stays;
  const reason = unsaid;
  unsaid = "";
  stays = undefined;
  const element = row && [...document.querySelectorAll(".blank.pinned")].find((each) => new Blank(each).is(row));
  element?.focus({ preventScroll: true });
  if (reason) tell(reason); else show();
  settleView();
};
for (const name of ["htmx:beforeSwap", "htmx:oobBeforeSwap"]) document.addEventListener(name, stood);
document.addEventListener("htmx:afterSettle", stand);

// ---- a page that came of a sent form is found again when it is loaded anew
const keep = () => {
  const rows = [...new FormData(form)].filter(([name, value]) =>
    typeof value === "string" && !/^(pasted|pin_.*|page|doing|do)$/.test(name));
  try { sessionStorage.setItem(KEPT, JSON.stringify(rows)); } catch { /* nothing is kept, nothing is lost */ }
};
const again = (rows) => {
  const sent = document.createElement("form");
  Object.assign(sent, { method: "post", action: "/layout", hidden: true });
  for (const [name, value] of [...rows, ["do", "shown"]]) {
    const box = document.createElement("input");
    Object.assign(box, { type: "hidden", name, value });
    sent.append(box);
  }
  document.body.append(sent);
  sent.submit();
};
document.addEventListener("click", (event) => {
  if (event.target.closest("[data-afresh]")) try { sessionStorage.removeItem(KEPT); } catch { /* as above */ }
});
const unheard = (text) => () => { notHeard(); say(text); tell(text); };
const notHeard = () => { chosen?.restore(); show(); };
document.addEventListener("htmx:sendError", unheard("Hollowright doesn't answer: start it again (hollowright serve)."));
document.addEventListener("htmx:responseError", unheard("Something went wrong inside. The last layout stands."));

if (form.elements.piece) {
  history.replaceState(null, "", "/layout");
  keep();
} else if (!byId("said").textContent.trim()) {
  let rows;
  try { rows = JSON.parse(sessionStorage.getItem(KEPT)); } catch { /* as above */ }
  if (rows?.some(([name]) => name === "piece")) again(rows);
}
