const form = document.getElementById('form');
const said = document.getElementById('said');

form.addEventListener('submit', async (event) => {
  event.preventDefault();
  said.textContent = '';
  try {
    const answer = await fetch('/api/session', {
      method: 'POST',
      headers: { 'Content-Type': 'application/json' },
      body: JSON.stringify({ name: form.elements.name.value, password: form.elements.password.value }),
    });
    if (answer.ok) {
      location.assign('/');
    } else {
      said.textContent = (await answer.json()).error;
    }
  } catch {
    said.textContent = 'The host does not answer.';
  }
});
