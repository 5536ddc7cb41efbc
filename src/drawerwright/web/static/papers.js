// How far a pack is: told by the server as it goes; asked again and again where that line is lost.
import { reach, tellReach } from './house.js';

const box = document.querySelector('[data-progress]');
const bar = box?.querySelector('progress');
const step = box?.querySelector('[data-step]');
const count = box?.querySelector('[data-count]');
const ASKED_EVERY = 1000; // milliseconds; own choice

/** @param {{ready?: string, failed?: string, step?: string, done?: number, of?: number}} told */
function show(told) {
  if (told.ready) {
    location.replace(box.dataset.again);
    return true;
  }
  if (told.failed) {
    step.textContent = told.failed;
    return true;
  }
  if (told.of) {
    bar.max = told.of;
    bar.value = told.done;
    count.textContent = `${told.done} of ${told.of}`;
  }
  if (told.step) step.textContent = told.step;
  return false;
}

/** Ask until it is ready, also across a server that is begun again. */
async function ask() {
  try {
    const reply = await reach(box.dataset.progress, { headers: { accept: 'application/json' } });
    if (reply.ok && show(await reply.json())) return;
    if (reply.status === 422) {
      location.replace(box.dataset.again);
      return;
    }
  } catch {
    // The bar tells it; the next question finds the server again.
  }
  setTimeout(ask, ASKED_EVERY);
}

if (box) {
  const stream = new EventSource(box.dataset.progress);
  stream.onmessage = (message) => {
    tellReach(false);
    if (show(JSON.parse(message.data))) stream.close();
  };
  stream.onerror = () => {
    stream.close();
    ask();
  };
}
