const form = /** @type {HTMLFormElement} */ (document.getElementById('form'));
const password = /** @type {HTMLInputElement} */ (form.elements.namedItem('password'));
const said = document.getElementById('said');

/** The view that was asked for, which came along behind the "#"; nothing else is led to. */
const back = location.hash.startsWith('#/') ? location.hash : '';

form.addEventListener('submit', async (event) => {
  event.preventDefault();
  said.textContent = '';
  try {
    const answer = await fetch('/api/session', {
      method: 'POST',
      headers: { 'Content-Type': 'application/json' },
      body: JSON.stringify(Object.fromEntries(new FormData(form))),
    });
    if (answer.ok) {
      location.assign(`/${back}`);
    } else {
      said.textContent = (await answer.json()).error;
      password.select();
    }
  } catch {
    said.textContent = 'The host does not answer.';
  }
});
