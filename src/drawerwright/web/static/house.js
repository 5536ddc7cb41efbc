// What every page shares: the bar that tells of a server out of reach, and questions asked twice.
const bar = document.querySelector('[data-unreachable]');

/** Tell that the server cannot be reached, or that it can again. @param {boolean} lost */
export function tellReach(lost) {
  if (bar) bar.hidden = !lost;
}

/**
 * Fetch that tells when the server is out of reach; the failure goes on to the caller.
 * @param {RequestInfo} what @param {RequestInit} [how] @returns {Promise<Response>}
 */
export async function reach(what, how) {
  try {
    const reply = await fetch(what, how);
    tellReach(reply.status === 502 || reply.status === 503 || reply.status === 504);
    return reply;
  } catch (lost) {
    if (!(lost instanceof DOMException && lost.name === 'AbortError')) tellReach(true);
    throw lost;
  }
}
