// Ticks of the bench: shown at once, sent when there is a connection, kept on the device until then.
import { reach } from './house.js';

/** @typedef {{drawer: string, step: string, done: boolean, at: string}} Tick */

const sheet = document.querySelector('[data-bench]');
const told = document.querySelector('[data-kept]');
const name = `bench-${sheet.dataset.bench}`;
const address = `/api/v1/jobs/${encodeURIComponent(sheet.dataset.bench)}/ticks`;
const SENT_AT_ONCE = 500; // ticks; half of what the server takes
const TRIED_EVERY = 4000; // milliseconds; own choice
let sending = false;

/** @returns {Tick[]} ticks that the server has not got yet, the oldest first */
function waiting() {
  try {
    const kept = JSON.parse(localStorage.getItem(name) ?? '[]');
    return Array.isArray(kept) ? kept : [];
  } catch {
    return [];
  }
}

/** @param {Tick[]} ticks */
function keep(ticks) {
  if (ticks.length) localStorage.setItem(name, JSON.stringify(ticks));
  else localStorage.removeItem(name);
  told.hidden = !ticks.length;
  told.textContent = ticks.length
    ? `No connection: ${ticks.length} ${ticks.length === 1 ? 'tick is' : 'ticks are'} kept on this device`
    : '';
}

/** Show a step as done or not. @param {HTMLButtonElement} button @param {boolean} done */
function show(button, done) {
  button.setAttribute('aria-pressed', String(done));
  button.value = `${button.value.slice(0, button.value.lastIndexOf(':'))}:${done ? 0 : 1}`;
  button.closest('.step').classList.toggle('ticked', done);
}

/** Count the steps again. */
function count() {
  const buttons = [...document.querySelectorAll('[data-step]')];
  if (!buttons.length) return;
  const done = buttons.filter((one) => one.getAttribute('aria-pressed') === 'true').length;
  document.querySelector('[data-count]').textContent = `${done} of ${buttons.length}`;
  document.querySelector('.far progress').value = done;
  document.querySelector('[data-finished]').hidden = done < buttons.length;
}

/** Send what waits; what cannot be sent now stays. */
async function send() {
  const ticks = waiting();
  if (sending || !ticks.length) {
    if (!ticks.length) keep([]);
    return;
  }
  sending = true;
  const some = ticks.slice(0, SENT_AT_ONCE);
  try {
    const reply = await reach(address, {
      method: 'POST',
      headers: { 'content-type': 'application/json', accept: 'application/json' },
      body: JSON.stringify({ ticks: some }),
    });
    if (reply.ok || (reply.status >= 400 && reply.status < 500)) {
      keep(waiting().slice(some.length)); // what came meanwhile stands behind them
    } else {
      keep(waiting());
    }
  } catch {
    keep(waiting());
  } finally {
    sending = false;
  }
  if (waiting().length) setTimeout(send, TRIED_EVERY);
}

for (const button of document.querySelectorAll('[data-step]')) {
  button.addEventListener('click', (event) => {
    event.preventDefault();
    const done = button.getAttribute('aria-pressed') !== 'true';
    show(button, done);
    count();
    const tick = { drawer: sheet.dataset.drawer, step: button.dataset.step, done, at: new Date().toISOString() };
    localStorage.setItem(name, JSON.stringify([...waiting(), tick]));
    send();
  });
}

for (const tick of waiting()) {
  if (tick.drawer !== sheet.dataset.drawer) continue;
  const button = [...document.querySelectorAll('[data-step]')].find((one) => one.dataset.step === tick.step);
  if (button) show(button, tick.done);
}
count();
if (waiting().length) keep(waiting());
send();
addEventListener('online', send);

if ('serviceWorker' in navigator) {
  const here = [location.pathname + location.search, ...(sheet.dataset.keep ?? '').split(' ').filter(Boolean)];
  const parts = performance.getEntriesByType('resource').map((one) => one.name).filter((one) => one.startsWith(location.origin) && !one.includes('/api/'));
  // Without a connection the worker that is there does; asking for a newer one would only fail.
  const worker = navigator.onLine ? navigator.serviceWorker.register('/bench-worker.js', { scope: '/jobs/' }) : Promise.resolve();
  worker
    .then(() => navigator.serviceWorker.ready)
    .then((worker) => worker.active.postMessage({ keep: [...parts, ...here] }))
    .catch(() => {}); // without it the page still works where there is a connection
}
