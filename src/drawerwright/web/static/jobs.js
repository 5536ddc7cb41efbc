// The list of jobs counts its verdicts by itself, one job after the other; two versions are chosen at a stroke.
for (const cell of document.querySelectorAll('[data-counts]')) {
  try {
    const reply = await fetch(cell.dataset.counts, { headers: { Accept: 'text/html' } });
    if (reply.ok) cell.innerHTML = await reply.text();
  } catch { /* the link to count stays */ }
}
for (const button of document.querySelectorAll('[data-all]')) {
  button.hidden = false;
  button.addEventListener('click', () => {
    for (const choice of document.querySelectorAll(`input[type="radio"][value="${button.dataset.all}"]`)) choice.checked = true;
  });
}
