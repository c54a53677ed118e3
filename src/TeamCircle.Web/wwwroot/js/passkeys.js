// Asks the browser for a passkey, or for a new one, and sends its answer as the form it stands in. The server's page asks first: what is to be
// signed comes from there, and counts once.
const forms = [...document.querySelectorAll("form[data-passkey]")];

if (window.PublicKeyCredential?.parseRequestOptionsFromJSON) {
  for (const form of forms) {
    form.hidden = false;
    form.addEventListener("submit", event => {
      if (field(form, "Credential").value) return; // the answer is in it: send
      event.preventDefault();
      ask(form);
    });
  }
} else {
  for (const words of document.querySelectorAll("[data-no-passkeys]")) words.hidden = false;
}

async function ask(form) {
  const failed = form.querySelector("[role=alert]"), button = form.querySelector("button");
  failed.hidden = true;
  button.disabled = true;
  try {
    const { key, options } = await question(form);
    const publicKey = JSON.parse(options);
    const credential = form.dataset.passkey === "create"
      ? await navigator.credentials.create({ publicKey: PublicKeyCredential.parseCreationOptionsFromJSON(publicKey) })
      : await navigator.credentials.get({ publicKey: PublicKeyCredential.parseRequestOptionsFromJSON(publicKey) });
    field(form, "Key").value = key;
    field(form, "Credential").value = JSON.stringify(credential);
    form.requestSubmit();
  } catch {
    failed.hidden = false; // cancelled, too slow, or no passkey for this portal: the person decides what next
    button.disabled = false;
    button.focus();
  }
}

const field = (form, name) => form.querySelector(`input[name$="${name}"]`);

async function question(form) {
  const token = new URLSearchParams({ __RequestVerificationToken: form.elements.__RequestVerificationToken.value });
  const answer = await fetch(form.dataset.ask, { method: "POST", body: token });
  if (!answer.ok || answer.redirected) throw new Error(`asked in vain: ${answer.status}`);
  return answer.json();
}
