// A lay that is moved by hand: pieces are dragged, or moved with the arrow keys,
// and what the referee says of it follows. The server judges; nothing is worked
// out here but where the piece has been put.
"use strict";

const perUnit = { mm: 1, cm: 10, m: 1000, in: 25.4, ft: 304.8, yd: 914.4 };

function onCloth(form) {
  const frame = form.querySelector(".paper");
  const svg = frame.querySelector("svg");
  if (!svg) return;
  svg.setAttribute("role", "group");
  const scale = Number(form.dataset.scale);
  const repeat = { x: Number(form.dataset.stepX), y: Number(form.dataset.stepY) };
  const unit = form.dataset.unit || "cm";
  const written = (mm) => {
    const places = unit === "mm" ? 3 : unit === "cm" ? 4 : 6;
    let text = (mm / perUnit[unit]).toFixed(places);
    while (text.endsWith("0") && text.split(".")[1].length > 2) text = text.slice(0, -1);
    return text + " " + unit;
  };

  // The referee is asked once at a time; the last place always.
  let asked = null;
  let again = false;
  async function judge() {
    if (asked) { again = true; return; }
    const data = new URLSearchParams(new FormData(form));
    data.set("do", "judge");
    data.set("only", "judged");
    asked = true;
    try {
      const resp = await fetch(form.action, { method: "POST", body: data });
      if (resp.ok || resp.status === 422) take(new DOMParser().parseFromString(await resp.text(), "text/html"));
    } catch (e) { /* the network is away; the next move asks again */ }
    asked = null;
    if (again) { again = false; judge(); }
  }
  function take(doc) {
    const state = doc.querySelector(".on-cloth .state");
    const told = doc.querySelector(".refused");
    if (told || !state) {
      form.querySelector(".state").replaceChildren(told || document.createTextNode("?"));
      return;
    }
    form.querySelector(".state").innerHTML = state.innerHTML;
    doc.querySelectorAll("tr[data-id]").forEach((fresh) => {
      const row = form.querySelector(`tr[data-id="${CSS.escape(fresh.dataset.id)}"]`);
      if (!row) return;
      row.querySelector(".gap").textContent = fresh.querySelector(".gap").textContent;
      row.classList.toggle("bad", fresh.classList.contains("bad"));
    });
    marks();
    if (moving) say(moving);
  }

  const tip = frame.querySelector(".tip");
  let moving = null;
  const pieces = [...svg.querySelectorAll('[data-layer^="laid:"]')].map((g) => {
    const id = g.dataset.layer.slice(5);
    const row = form.querySelector(`tr[data-id="${CSS.escape(id)}"]`);
    return row && { g, id, row, along: row.querySelector('[name^="along."]'), across: row.querySelector('[name^="across."]'), pin: row.querySelector('[name^="pin."]'), dx: 0, dy: 0 };
  }).filter(Boolean);
  const say = (p) => {
    tip.hidden = false;
    tip.textContent = [p.id, p.along.value + " · " + p.across.value, p.row.querySelector(".gap").textContent].filter(Boolean).join(" · ");
  };
  const marks = () => pieces.forEach((p) => {
    p.g.classList.toggle("bad", p.row.classList.contains("bad"));
    p.g.classList.toggle("pinned", p.pin.checked);
    const name = [...p.g.querySelectorAll("text")].map((t) => t.textContent).join(" ");
    p.g.setAttribute("aria-label", [name, p.id, p.along.value, p.across.value, p.row.querySelector(".gap").textContent].filter(Boolean).join(", "));
  });
  // shift puts a piece so many mm from where the page drew it, by whole repeats of
  // the cloth where it has one, else by whole millimetres: moved to and fro it lies
  // as before.
  const shift = (p, dx, dy) => {
    const from = { x: Number(p.along.dataset.mm), y: Number(p.across.dataset.mm) };
    const to = (at, d, step) => at + (step > 0 ? Math.round(d / step) * step : Math.round(d));
    const x = Math.max(0, Math.abs(dx) < 1e-6 ? from.x : to(from.x, dx, repeat.x));
    const y = Math.max(0, Math.abs(dy) < 1e-6 ? from.y : to(from.y, dy, repeat.y));
    p.dx = x - from.x;
    p.dy = y - from.y;
    p.along.value = written(x);
    p.across.value = written(y);
    p.g.setAttribute("transform", `translate(${p.dx / scale} ${-p.dy / scale})`);
    say(p);
    judge();
  };
  for (const p of pieces) {
    p.g.setAttribute("tabindex", "0");
    p.g.setAttribute("role", "button");
    let grip = null;
    p.g.addEventListener("pointerdown", (e) => {
      if (p.pin.checked || (e.pointerType === "mouse" && e.button !== 0)) return;
      e.stopPropagation(); // the drawing stays where it is
      e.preventDefault();
      p.g.focus({ preventScroll: true });
      p.g.setPointerCapture(e.pointerId);
      const m = svg.getScreenCTM().inverse();
      grip = { at: new DOMPoint(e.clientX, e.clientY).matrixTransform(m), m, dx: p.dx, dy: p.dy };
      p.g.classList.add("held");
      p.g.parentNode.append(p.g); // above the others
      moving = p;
    });
    p.g.addEventListener("pointermove", (e) => {
      if (!grip) return;
      e.stopPropagation();
      const now = new DOMPoint(e.clientX, e.clientY).matrixTransform(grip.m);
      shift(p, grip.dx + (now.x - grip.at.x) * scale, grip.dy - (now.y - grip.at.y) * scale);
    });
    for (const end of ["pointerup", "pointercancel"]) p.g.addEventListener(end, () => {
      grip = null;
      p.g.classList.remove("held");
      marks();
    });
    p.g.addEventListener("focus", () => { moving = p; say(p); });
    p.g.addEventListener("keydown", (e) => {
      const far = e.shiftKey ? 1 : 10;
      const step = { x: repeat.x || far, y: repeat.y || far };
      const go = { ArrowLeft: [-step.x, 0], ArrowRight: [step.x, 0], ArrowUp: [0, step.y], ArrowDown: [0, -step.y] }[e.key];
      if (go) {
        e.preventDefault();
        e.stopPropagation();
        if (!p.pin.checked) shift(p, p.dx + go[0], p.dy + go[1]);
        marks();
      } else if (e.key === "p" || e.key === " ") {
        e.preventDefault();
        p.pin.click();
      } else if (e.key === "t") {
        e.preventDefault();
        p.row.querySelector('[name="do"][value^="turn."]').click();
      }
    });
  }
  // Findings light the pieces that they speak of.
  const lit = (li, on) => (li.dataset.pieces || "").split(" ").filter(Boolean).forEach((id) => {
    const g = svg.querySelector(`[data-layer="${CSS.escape("laid:" + id)}"]`);
    if (g) g.classList.toggle("lit", on);
  });
  for (const [kind, on] of [["pointerover", true], ["pointerout", false]]) form.querySelector(".state").addEventListener(kind, (e) => {
    const li = e.target.closest("li[data-pieces]");
    if (li) lit(li, on);
  });
  marks();

  // What is typed, turned or moved to another section is drawn anew.
  async function redraw(button) {
    const held = document.activeElement;
    const id = held && held.closest("[data-layer^='laid:']") ? held.closest("[data-layer^='laid:']").dataset.layer : "";
    const name = held && held.name ? [held.name, held.value] : null;
    const data = new URLSearchParams(new FormData(form));
    data.set("do", button ? button.value : "judge");
    const resp = await fetch(form.action, { method: "POST", body: data });
    const doc = new DOMParser().parseFromString(await resp.text(), "text/html");
    const fresh = doc.querySelector("form.on-cloth");
    if (!fresh) { form.submit(); return; }
    const node = document.importNode(fresh, true);
    document.querySelectorAll(".refused").forEach((n) => n.remove());
    const told = doc.querySelector(".refused");
    if (told) form.before(document.importNode(told, true));
    form.replaceWith(node);
    liven(node);
    onCloth(node);
    const back = id ? node.querySelector(`[data-layer="${CSS.escape(id)}"]`) : name && node.querySelector(`[name="${CSS.escape(name[0])}"]${name[0] === "do" ? `[value="${CSS.escape(name[1])}"]` : ""}`);
    if (back) back.focus({ preventScroll: true });
  }
  form.addEventListener("submit", (e) => {
    const b = e.submitter;
    if (!b || b.value === "keep" || b.value === "look") return;
    e.preventDefault();
    redraw(b);
  });
  form.addEventListener("change", () => redraw(null));
}

document.querySelectorAll("form.on-cloth").forEach(onCloth);
