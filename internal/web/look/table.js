// What the pages can do without a script, they do; this spares the waiting:
// drawings that zoom and pan, edges that say what they are.
"use strict";

// zoom lets one drawing be looked at closely: buttons, wheel with Ctrl, two
// fingers, dragging once it is larger than its frame; + - 0 and the arrows.
function zoom(frame) {
  const svg = frame.querySelector("svg");
  if (!svg || frame.querySelector(".zooming")) return;
  const whole = svg.viewBox.baseVal;
  const all = { x: whole.x, y: whole.y, w: whole.width, h: whole.height };
  let now = { ...all };
  const set = (x, y, w) => {
    w = Math.min(all.w, Math.max(all.w / 40, w));
    const h = (w * all.h) / all.w;
    now = { x: Math.min(all.x + all.w - w, Math.max(all.x, x)), y: Math.min(all.y + all.h - h, Math.max(all.y, y)), w, h };
    svg.setAttribute("viewBox", [now.x, now.y, now.w, now.h].join(" "));
    frame.style.touchAction = now.w < all.w ? "none" : "pan-y";
  };
  const at = (e) => {
    const m = svg.getScreenCTM();
    return m ? new DOMPoint(e.clientX, e.clientY).matrixTransform(m.inverse()) : { x: now.x + now.w / 2, y: now.y + now.h / 2 };
  };
  const by = (k, p) => {
    p = p || { x: now.x + now.w / 2, y: now.y + now.h / 2 };
    set(p.x - (p.x - now.x) / k, p.y - (p.y - now.y) / k, now.w / k);
  };
  const words = document.documentElement.lang === "de" ? ["größer", "kleiner", "ganz"] : ["larger", "smaller", "all of it"];
  const bar = document.createElement("div");
  bar.className = "zooming";
  [["+", () => by(1.6)], ["−", () => by(1 / 1.6)], ["□", () => set(all.x, all.y, all.w)]].forEach(([sign, act], i) => {
    const b = document.createElement("button");
    b.type = "button";
    b.textContent = sign;
    b.setAttribute("aria-label", words[i]);
    b.addEventListener("click", act);
    bar.append(b);
  });
  frame.prepend(bar);
  frame.addEventListener("wheel", (e) => {
    if (!e.ctrlKey) return;
    e.preventDefault();
    by(Math.exp(-e.deltaY / 300), at(e));
  }, { passive: false });
  frame.addEventListener("keydown", (e) => {
    if (e.target !== frame) return;
    const step = now.w / 8;
    const keys = {
      "+": () => by(1.4), "-": () => by(1 / 1.4), "0": () => set(all.x, all.y, all.w),
      ArrowLeft: () => set(now.x - step, now.y, now.w), ArrowRight: () => set(now.x + step, now.y, now.w),
      ArrowUp: () => set(now.x, now.y - step, now.w), ArrowDown: () => set(now.x, now.y + step, now.w),
    };
    if (!keys[e.key] || (e.key.startsWith("Arrow") && now.w >= all.w)) return;
    e.preventDefault();
    keys[e.key]();
  });
  const fingers = new Map();
  frame.addEventListener("pointerdown", (e) => {
    if (e.target.closest(".zooming")) return;
    fingers.set(e.pointerId, e);
    if (now.w < all.w || fingers.size > 1) svg.setPointerCapture(e.pointerId);
  });
  frame.addEventListener("pointermove", (e) => {
    const before = fingers.get(e.pointerId);
    if (!before) return;
    const scale = now.w / svg.clientWidth;
    if (fingers.size === 1 && now.w < all.w) set(now.x - (e.clientX - before.clientX) * scale, now.y - (e.clientY - before.clientY) * scale, now.w);
    if (fingers.size === 2) {
      const other = [...fingers.values()].find((f) => f.pointerId !== e.pointerId);
      const far = (f) => Math.hypot(f.clientX - other.clientX, f.clientY - other.clientY);
      if (far(before) > 0) by(far(e) / far(before), at({ clientX: (e.clientX + other.clientX) / 2, clientY: (e.clientY + other.clientY) / 2 }));
    }
    fingers.set(e.pointerId, e);
  });
  for (const end of ["pointerup", "pointercancel", "pointerleave"]) frame.addEventListener(end, (e) => fingers.delete(e.pointerId));
}

// tell shows name, length and allowance of the edge pointed at, and lights the
// edge whose row is pointed at.
function tell(figure) {
  const tip = figure.querySelector(".tip");
  const rows = new Map([...figure.querySelectorAll("tr[data-layer]")].map((r) => [r.dataset.layer, r]));
  const light = (layer, on) => {
    const edge = figure.querySelector(`svg [data-layer="${CSS.escape(layer)}"]`);
    if (edge) edge.classList.toggle("lit", on);
    const row = rows.get(layer);
    if (row) row.classList.toggle("lit", on);
    if (tip && row) {
      tip.hidden = !on;
      tip.textContent = [...row.children].map((c) => c.textContent.trim()).filter(Boolean).join(" · ");
    }
  };
  for (const e of figure.querySelectorAll('svg [data-layer^="edge:"]')) {
    const wide = e.querySelector("path");
    if (!wide) continue;
    const feel = wide.cloneNode(); // a wider line, to be met more easily
    feel.setAttribute("stroke", "transparent");
    feel.setAttribute("stroke-width", "14");
    feel.removeAttribute("stroke-dasharray");
    feel.classList.add("feel");
    e.prepend(feel);
    e.addEventListener("pointerenter", () => light(e.dataset.layer, true));
    e.addEventListener("pointerleave", () => light(e.dataset.layer, false));
  }
  for (const [layer, row] of rows) {
    row.addEventListener("pointerenter", () => light(layer, true));
    row.addEventListener("pointerleave", () => light(layer, false));
  }
}

// A finding leads to its place: the number on the drawing that is its own is lit.
document.addEventListener("click", (e) => {
  const a = e.target.closest("a[data-mark]");
  if (!a) return;
  document.querySelectorAll('svg [data-layer^="found:"]').forEach((g) => g.classList.toggle("lit", g.dataset.layer === "found:" + a.dataset.mark));
});

function liven(part) {
  part.querySelectorAll(".zoom").forEach(zoom);
  part.querySelectorAll("figure.piece").forEach(tell);
}

// A docket's sheet is kept up to date: forms are sent behind the page and only
// the leaves that came out otherwise are put in; what happens elsewhere comes
// as events. The server's own text of each leaf is kept to see what changed.
const sheet = document.querySelector(".docket");
const texts = new Map();
const remember = (doc) => doc.querySelectorAll("[data-part]").forEach((p) => texts.set(p.dataset.part, p.outerHTML));
if (sheet) remember(document);
liven(document);

// A form is known by where it goes and which step or kind of change it is for.
const keyOf = (form) => [form.getAttribute("action"), ...[...form.querySelectorAll('input[type=hidden]:not([name="base"])')].map((i) => i.name + "=" + i.value)].join(" ");
const formOf = (key) => [...document.querySelectorAll("form.live")].find((f) => keyOf(f) === key);
const fieldsOf = (form) => [...form.querySelectorAll("input:not([type=hidden]),select,textarea")].filter((f) => f.name);
const given = (f) => f.tagName === "SELECT" ? ([...f.options].find((o) => o.defaultSelected) || f.options[0] || {}).value : f.defaultValue;

// typed gathers what somebody has typed into the forms of a part and the server
// does not have yet: it must outlast the part being put in anew. What was sent
// and taken is the server's.
function typed(part, taken) {
  const out = [];
  part.querySelectorAll("form").forEach((form) => fieldsOf(form).forEach((f) => {
    if (f.value !== given(f) && !(taken && f.sent === f.value)) out.push([keyOf(form), f.name, f.value]);
  }));
  return out;
}

function retype(part, list) {
  part.querySelectorAll("form").forEach((form) => fieldsOf(form).forEach((f) => {
    const was = list.find(([key, name]) => key === keyOf(form) && name === f.name);
    if (was) {
      f.value = was[2];
      f.retyped = true;
    }
  }));
}

// caretOf is where somebody is typing within a field; hold gives a field that was
// put in anew into the same hand.
const caretOf = (f) => f && f.tagName === "INPUT" && f.type === "text" ? [f.selectionStart, f.selectionEnd] : null;
function hold(f, caret) {
  if (!f) return;
  f.focus({ preventScroll: true });
  if (caret && f.tagName === "INPUT" && f.type === "text") f.setSelectionRange(...caret);
}

function put(text, address, taken) {
  const doc = new DOMParser().parseFromString(text, "text/html");
  const next = doc.querySelector(".docket");
  if (!next || next.dataset.docket !== sheet.dataset.docket) {
    location.href = address || location.href; // it is another page
    return;
  }
  const held = document.activeElement;
  const caret = caretOf(held);
  const heldIn = held && held.closest("[data-part]");
  const heldAt = heldIn && [...heldIn.querySelectorAll("input,select,button,a,summary")].indexOf(held);
  next.querySelectorAll("[data-part]").forEach((fresh) => {
    const name = fresh.dataset.part;
    if (texts.get(name) === fresh.outerHTML) return;
    texts.set(name, fresh.outerHTML);
    const old = document.querySelector(`[data-part="${CSS.escape(name)}"]`);
    if (!old) return;
    const open = [...old.querySelectorAll("details")].map((d) => d.open);
    const mine = typed(old, taken);
    const node = document.importNode(fresh, true);
    retype(node, mine);
    [...node.querySelectorAll("details")].forEach((d, i) => { if (open[i]) d.open = true; });
    old.replaceWith(node);
    liven(node);
    if (heldIn === old && heldAt >= 0) hold(node.querySelectorAll("input,select,button,a,summary")[heldAt], caret);
  });
  // The version that forms are made for goes on with every change.
  document.querySelectorAll('[data-part] input[name="base"]').forEach((b) => {
    const now = next.querySelector('[data-part] input[name="base"]');
    if (now) b.value = now.value;
  });
  const rail = next.querySelector(".leaves");
  if (rail) document.querySelector(".leaves").innerHTML = rail.innerHTML;
  sheet.dataset.change = next.dataset.change;
  sheet.dataset.told = next.dataset.told;
  here();
}

let asking = null;
async function refresh() {
  if (asking) { asking.again = true; return; }
  asking = { again: false };
  try {
    const resp = await fetch(location.pathname, { headers: { "Accept": "text/html" } });
    if (resp.ok) put(await resp.text());
  } catch (e) { /* the network is away; the next event asks again */ }
  const again = asking.again;
  asking = null;
  if (again) refresh();
}

// Forms are sent one after the other, so that each is for the version that the
// one before has made.
let chain = Promise.resolve();
function send(form, button) {
  const key = keyOf(form);
  const pressed = button && button.name ? [button.name, button.value] : null;
  chain = chain.then(() => sendNow(formOf(key), pressed)).catch(() => {});
}

async function sendNow(form, pressed) {
  if (!form) return;
  const data = new URLSearchParams(new FormData(form));
  if (pressed) data.set(...pressed);
  fieldsOf(form).forEach((f) => { f.sent = f.value; });
  const part = form.closest("[data-part]");
  if (part) part.classList.add("waiting");
  try {
    const resp = await fetch(form.action, { method: "POST", body: data });
    put(await resp.text(), resp.url, resp.ok);
  } catch (e) {
    form.submit(); // let the browser say what is wrong
  } finally {
    if (part) part.classList.remove("waiting");
  }
}

if (sheet) {
  document.addEventListener("submit", (e) => {
    if (!e.target.matches("form.live")) return;
    e.preventDefault();
    send(e.target, e.submitter);
  });
  // A number that was changed is tried at once.
  document.addEventListener("change", (e) => {
    const form = e.target.closest("form.at-once");
    e.target.retyped = false;
    if (form && form.checkValidity()) send(form, null);
  });
  // A field that was put in anew while somebody typed into it does not know in
  // every browser that it was changed: it is asked when it is left.
  document.addEventListener("focusout", (e) => {
    const f = e.target, form = f.form;
    if (form && form.matches("form.at-once") && f.retyped && f.value !== given(f) && form.checkValidity()) send(form, null);
    f.retyped = false;
  });
  const words = document.documentElement.lang === "de" ? ["Stoff", "nach", "s"] : ["cloth", "after", "s"];
  // What was told between the page being written and somebody listening.
  const missed = (n) => String(n.change) !== sheet.dataset.change || String(n.told) !== sheet.dataset.told;
  let source = null;
  const listen = () => {
    source = new EventSource(`/docket/${sheet.dataset.docket}/events`);
    source.onmessage = (e) => {
      const n = JSON.parse(e.data);
      if (n.kind === "better") {
        const [by, name] = sheet.dataset.yards ? [914.4, "yd"] : [1000, "m"];
        const long = (n.length / by).toLocaleString(document.documentElement.lang, { minimumFractionDigits: 2, maximumFractionDigits: 2 });
        const text = `${n.role}: ${n.plan}, ${long} ${name}, ${words[1]} ${n.seconds.toFixed(0)} ${words[2]}`;
        document.querySelectorAll(".news").forEach((o) => { o.textContent = text; });
      } else if (n.kind !== "here" || missed(n)) {
        refresh();
      }
    };
  };
  listen();
  addEventListener("pagehide", () => source.close());
  addEventListener("pageshow", (e) => { if (e.persisted) { listen(); refresh(); } });
}

// here marks the leaf that is read in the list of leaves.
const seen = new Map();
function here() {
  const top = [...seen].filter(([, on]) => on).map(([id]) => id)[0];
  document.querySelectorAll(".leaves a").forEach((a) => {
    const on = a.getAttribute("href") === "#" + top;
    a.classList.toggle("here", on);
    if (on) a.setAttribute("aria-current", "true"); else a.removeAttribute("aria-current");
  });
}
if (sheet) {
  const watch = new IntersectionObserver((list) => {
    list.forEach((e) => seen.set(e.target.id, e.isIntersecting));
    here();
  }, { rootMargin: "-15% 0px -60% 0px" });
  document.querySelectorAll(".leaf").forEach((l) => watch.observe(l));
}
