// The little that the server can't do: keep what was typed, tick boxes, and hold open what was open.
(() => {
  "use strict";
  const form = document.getElementById("piece");
  if (!form) return;
  document.documentElement.classList.add("js");
  const design = form.elements.design.value;
  const typedKey = `hollowright.typed.${design}`;
  const byId = (id) => document.getElementById(id);

  // Storage may be shut off; the page works without it.
  const keep = (key, value) => {
    try {
      if (value === null) localStorage.removeItem(key);
      else localStorage.setItem(key, JSON.stringify(value));
    } catch { /* nothing is kept, nothing is lost */ }
  };
  const kept = (key) => {
    try { return JSON.parse(localStorage.getItem(key)); } catch { return null; }
  };

  // ---- what was typed survives a reload; a page that came of a sent form is newer than it
  const boxes = () => [...form.elements].filter((box) =>
    box.name && !["hidden", "file", "submit"].includes(box.type) && box.name !== "pasted");
  const sent = (box) => // what the server put there; a browser may have put another text back
    box.tagName === "SELECT" ? [...box.options].find((option) => option.defaultSelected)?.value : box.defaultValue;
  const remember = () => keep(typedKey, Object.fromEntries(boxes().map((box) => [box.name, box.value])));
  const restore = () => {
    const typed = kept(typedKey);
    if (!typed || typeof typed !== "object") return;
    let moved = false;
    for (const box of boxes()) {
      const text = typed[box.name];
      if (typeof text !== "string" || text === sent(box)) continue;
      if (box.tagName === "SELECT" && ![...box.options].some((option) => option.value === text)) continue;
      box.value = text;
      moved = true;
      const folded = text && box.closest("details");
      if (folded) folded.open = true;
    }
    if (!moved) return;
    sort();
    htmx.trigger(form, "plan");
    if (byId("figure").value.trim()) htmx.trigger("#check", "check");
  };
  document.addEventListener("input", remember);
  document.addEventListener("click", (event) => {
    if (event.target.closest("[data-afresh]")) keep(typedKey, null);
  });

  // ---- what is typed is planned, wherever the button leads that is pressed meanwhile
  document.addEventListener("htmx:configRequest", (event) => {
    if (event.detail.elt === form) event.detail.path = "/plan";
  });

  // ---- Enter works the plan out in place; downloads and opened files are sent as forms are
  form.addEventListener("submit", (event) => {
    const to = event.submitter?.getAttribute("formaction") ?? "/plan";
    if (to === "/plan") { event.preventDefault(); htmx.trigger(form, "plan"); }
    if (to === "/check") { event.preventDefault(); htmx.trigger("#check", "check"); }
  });

  // ---- boxes that only some choices ask for are put away, unless something stands in them
  const sort = () => {
    for (const field of form.querySelectorAll("[data-asked-by]")) {
      const choice = form.elements[field.dataset.askedBy];
      const box = field.querySelector("input, select, textarea");
      const wanted = field.dataset.askedFor.split(" ").includes(choice?.value);
      const filled = box.tagName !== "SELECT" && box.value.trim();
      field.hidden = !wanted && !filled && !box.matches('[aria-invalid="true"]');
    }
    for (const group of form.querySelectorAll("fieldset.group")) {
      group.hidden = ![...group.querySelectorAll(".field")].some((field) => !field.hidden);
    }
  };
  form.addEventListener("change", sort);

  // ---- ticks, by piece
  const ticksKey = () => `hollowright.ticks.${design}.${byId("steps")?.dataset.piece ?? ""}`;
  const ticks = () => [...document.querySelectorAll("#steps [data-step]")];
  const count = () => {
    const all = ticks();
    const done = byId("done-count");
    if (done) done.textContent = `${all.filter((tick) => tick.checked).length} of ${all.length} done.`;
    const clear = byId("clear-ticks");
    if (clear) clear.hidden = !all.some((tick) => tick.checked);
  };
  const showTicks = () => {
    const done = new Set(kept(ticksKey()) ?? []);
    for (const tick of ticks()) tick.checked = done.has(tick.dataset.step);
    count();
  };
  const keepTicks = () => {
    keep(ticksKey(), ticks().filter((tick) => tick.checked).map((tick) => tick.dataset.step));
    count();
  };
  document.addEventListener("change", (event) => { if (event.target.dataset.step) keepTicks(); });
  document.addEventListener("click", (event) => {
    if (event.target.id !== "clear-ticks") return;
    for (const tick of ticks()) tick.checked = false;
    keepTicks();
    ticks()[0]?.focus();
  });

  // ---- a link to a box opens what hides it and puts the cursor there
  document.addEventListener("click", (event) => {
    const link = event.target.closest('a[href^="#"]');
    const box = link && byId(link.hash.slice(1));
    if (!box || !form.contains(box)) return;
    event.preventDefault();
    const folded = box.closest("details");
    if (folded) folded.open = true;
    box.focus();
    box.scrollIntoView({ block: "center" });
  });

  // ---- a new plan: what was open stays open, what didn't change isn't said again
  let open = [];
  document.addEventListener("htmx:beforeSwap", () => {
    open = [...document.querySelectorAll("#work details[open]")].map((each) => each.id);
  });
  document.addEventListener("htmx:oobBeforeSwap", (event) => {
    const { target, fragment } = event.detail;
    if (target.id !== "work" && target.textContent.trim() === fragment.textContent.trim()) {
      event.detail.shouldSwap = false;
    }
  });
  document.addEventListener("htmx:afterSettle", () => {
    for (const id of open) { const each = byId(id); if (each) each.open = true; }
    for (const place of document.querySelectorAll(".faults")) {
      const box = place.parentElement.querySelector("input, select, textarea");
      const said = place.childElementCount > 0;
      const wrong = place.querySelector(".fault:not(.minded)");
      if (wrong) box.setAttribute("aria-invalid", "true");
      else box.removeAttribute("aria-invalid");
      const folded = said && place.closest("details");
      if (folded) folded.open = true;
      if (said && box === document.activeElement) place.scrollIntoView({ block: "nearest" });
    }
    sort();
    showTicks();
  });

  // ---- the server is gone or stumbled: say so, keep everything
  const unheard = (text) => {
    const said = document.createElement("p");
    said.className = "stale unheard";
    said.textContent = text;
    byId("state").replaceChildren(said);
  };
  document.addEventListener("htmx:sendError", () =>
    unheard("Hollowright doesn't answer: start it again (hollowright serve). What you typed is kept here."));
  document.addEventListener("htmx:responseError", () =>
    unheard("Something went wrong inside. What you typed is kept here; change the last thing you typed."));

  sort();
  showTicks();
  // htmx listens from DOMContentLoaded on, and was there before us
  document.addEventListener("DOMContentLoaded", () => {
    if (location.pathname === "/") restore();
    else { remember(); history.replaceState(null, "", `/?design=${encodeURIComponent(design)}`); } // a reload asks, and finds it again
  });
})();
