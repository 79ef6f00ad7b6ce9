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
  frame.append(bar);
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

function liven(part) {
  part.querySelectorAll(".zoom").forEach(zoom);
  part.querySelectorAll("figure.piece").forEach(tell);
}
liven(document);
