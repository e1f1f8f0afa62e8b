// Passkeys need the browser's own dialogue. Where it has none, the buttons stay away and the password works as ever.
const can = window.PublicKeyCredential && PublicKeyCredential.parseRequestOptionsFromJSON;
async function options(form, path) {
  const token = form.querySelector('[name=__RequestVerificationToken]').value;
  const answer = await fetch(path, { method: 'POST', headers: { RequestVerificationToken: token }, credentials: 'same-origin' });
  if (!answer.ok) throw new Error('The site did not answer. Load the page again.');
  return answer.json();
}
for (const button of document.querySelectorAll('[data-passkey]')) {
  const form = button.closest('form');
  if (!can) continue;
  form.hidden = false;
  form.addEventListener('submit', async (event) => {
    event.preventDefault();
    const fault = form.querySelector('[data-passkey-fault]');
    fault.textContent = '';
    try {
      const credential = button.dataset.passkey === 'use'
        ? await navigator.credentials.get({ publicKey: PublicKeyCredential.parseRequestOptionsFromJSON(await options(form, '/sign-in/passkey/options')) })
        : await navigator.credentials.create({ publicKey: PublicKeyCredential.parseCreationOptionsFromJSON(await options(form, '/account/passkeys/options')) });
      form.querySelector('[name=credential]').value = JSON.stringify(credential);
      form.submit();
    } catch (error) {
      fault.textContent = error.name === 'NotAllowedError' ? 'Nothing was done: the dialogue was closed, or this device holds no passkey for this site.' : String(error.message);
    }
  });
}
