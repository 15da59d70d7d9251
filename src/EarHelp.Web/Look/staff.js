// The list of requests renews itself; without a script it is renewed by loading it again.
(() => {
  "use strict";
  const queue = document.querySelector("[data-events]");
  if (!queue) return;
  const status = document.querySelector("#desk-status");
  const count = () => queue.querySelector("#desk-count strong").textContent;
  new EventSource(queue.dataset.events).addEventListener("changed", async () => {
    const answer = await fetch(location.href, { headers: { "X-Part": "1" } });
    if (answer.redirected || !answer.ok) return location.reload();
    const before = count();
    const focused = queue.contains(document.activeElement) ? document.activeElement.getAttribute("href") : null;
    queue.innerHTML = await answer.text();
    if (focused) queue.querySelector(`[href="${CSS.escape(focused)}"]`)?.focus({ preventScroll: true });
    if (count() !== before) status.textContent = count();
  });
})();

// Signing in with a passkey needs a script; without it, the form with password and one-time code does the same.
(() => {
  "use strict";
  if (!window.PublicKeyCredential?.parseRequestOptionsFromJSON) return;
  const ask = {
    get: (options) => navigator.credentials.get({ publicKey: PublicKeyCredential.parseRequestOptionsFromJSON(options) }),
    make: (options) => navigator.credentials.create({ publicKey: PublicKeyCredential.parseCreationOptionsFromJSON(options) }),
  };
  for (const form of document.querySelectorAll("[data-passkey]")) {
    form.hidden = false;
    form.addEventListener("submit", async (event) => {
      event.preventDefault();
      const status = form.querySelector("[role=status]");
      status.textContent = "";
      try {
        const answer = await fetch(form.dataset.options, { method: "POST", body: new URLSearchParams(new FormData(form)) });
        if (!answer.ok) throw new Error(answer.statusText);
        form.elements.credential.value = JSON.stringify(await ask[form.dataset.passkey](await answer.json()));
        HTMLFormElement.prototype.submit.call(form);
      } catch {
        status.textContent = status.dataset.failed;
      }
    });
  }
})();
