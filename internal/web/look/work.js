// One step at a time, ticks that are kept whatever the network does.
"use strict";
const work = document.querySelector(".work");
const name = work.dataset.docket;
const steps = [...work.querySelectorAll(".step")];
const words = document.documentElement.lang === "de"
  ? { kept: "hier behalten, bis das Netz wieder da ist: ", synced: "alles behalten" }
  : { kept: "kept here until the network is back: ", synced: "all kept" };
const store = "ticks:" + name;
const state = work.querySelector(".state");
work.classList.add("one");

const waiting = () => { try { return JSON.parse(localStorage.getItem(store) || "[]"); } catch (e) { return []; } };
const wait = (list) => { try { localStorage.setItem(store, JSON.stringify(list)); } catch (e) { /* no room: what is on the page still holds */ } };

function mark(step, done, at) {
  if (at < Number(step.dataset.at || 0)) return;
  step.dataset.at = at;
  step.classList.toggle("done", done);
  const b = step.querySelector(".tickit");
  if (b) b.setAttribute("aria-pressed", String(done));
  const row = work.querySelector(`.all a[href="#${CSS.escape(step.id)}"]`);
  if (row) row.classList.toggle("done", done);
  work.querySelector(".count").textContent = steps.filter((s) => s.classList.contains("done")).length;
}

let sending = false;
async function hand() {
  const list = waiting();
  if (sending) return;
  sending = true;
  try {
    const resp = await fetch(`/docket/${name}/ticks`, { method: "POST", headers: { "Content-Type": "application/json" }, body: JSON.stringify(list) });
    if (!resp.ok || resp.redirected) throw new Error(String(resp.status));
    const all = await resp.json();
    wait(waiting().slice(list.length)); // what came in between still waits
    all.forEach((t) => {
      const step = steps.find((s) => s.dataset.step === t.step);
      if (step) mark(step, t.done, t.at);
    });
  } catch (e) { /* tried again below */ } finally {
    sending = false;
  }
  const left = waiting().length;
  state.textContent = left ? words.kept + left : words.synced;
  state.classList.toggle("away", left > 0);
}

function tick(step) {
  const done = !step.classList.contains("done");
  const at = Math.max(Date.now(), Number(step.dataset.at || 0) + 1);
  mark(step, done, at);
  wait([...waiting(), { step: step.dataset.step, done, at }]);
  hand();
  return done;
}

const current = () => Math.max(0, steps.findIndex((s) => "#" + s.id === location.hash));
function show(i) {
  i = Math.min(steps.length - 1, Math.max(0, i));
  steps.forEach((s, k) => { s.hidden = k !== i; });
  work.querySelector(".back").disabled = i === 0;
  work.querySelector(".next").disabled = i === steps.length - 1;
  if (location.hash !== "#" + steps[i].id) history.replaceState(null, "", "#" + steps[i].id);
  work.querySelector(".all").open = false;
  scrollTo(0, 0);
}
const go = (d) => { show(current() + d); steps[current()].querySelector("h2").focus(); };

work.querySelector(".back").addEventListener("click", () => go(-1));
work.querySelector(".next").addEventListener("click", () => go(1));
work.addEventListener("submit", (e) => {
  const step = e.target.closest(".step");
  if (!step) return;
  e.preventDefault();
  if (tick(step)) go(1);
});
addEventListener("hashchange", () => show(current()));
addEventListener("keydown", (e) => {
  if (e.target.closest("input,select,textarea,summary") || e.altKey || e.ctrlKey || e.metaKey) return;
  if (e.key === "ArrowRight") go(1);
  if (e.key === "ArrowLeft") go(-1);
});
addEventListener("online", hand);
setInterval(() => { if (waiting().length) hand(); }, 4000);

// What was ticked while the network was away shows again when the page does.
waiting().forEach((t) => {
  const step = steps.find((s) => s.dataset.step === t.step);
  if (step) mark(step, t.done, t.at);
});
const first = steps.findIndex((s) => s.dataset.step && !s.classList.contains("done"));
show(location.hash ? current() : steps.some((s) => s.classList.contains("done")) ? Math.max(0, first) : 0);
hand();

if ("serviceWorker" in navigator) {
  navigator.serviceWorker.register("/keeper.js").catch(() => { /* not on this address; the page itself still holds every step */ });
  // This page came before the keeper: it is asked for once more, through it.
  const keep = () => fetch(location.pathname).catch(() => {});
  if (navigator.serviceWorker.controller) keep();
  else navigator.serviceWorker.addEventListener("controllerchange", keep, { once: true });
}
// The screen stays on at the machine where the browser allows it.
const stay = () => { if (navigator.wakeLock && document.visibilityState === "visible") navigator.wakeLock.request("screen").catch(() => {}); };
document.addEventListener("visibilitychange", stay);
stay();
