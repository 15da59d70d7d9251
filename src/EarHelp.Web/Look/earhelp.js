// Turns are appended without a reload. Everything here is a comfort: without it every form posts as usual.
(() => {
  "use strict";
  const find = (selector) => document.querySelector(selector);
  const log = find("#log");
  let busy = false;

  const say = (key) => {
    const status = find("#status");
    if (status) status.textContent = key ? status.dataset[key] : "";
  };

  const postWhole = (form, submitter) => {
    if (submitter?.name) {
      const field = Object.assign(document.createElement("input"), { type: "hidden", name: submitter.name, value: submitter.value });
      form.append(field);
    }
    HTMLFormElement.prototype.submit.call(form);
  };

  const focusOn = (part) => {
    const target = part?.querySelector("[data-focus]") ?? part;
    target?.focus({ preventScroll: true });
    part?.scrollIntoView({ block: "start" });
  };

  const show = (answer, old) => {
    const page = document.createElement("template");
    page.innerHTML = answer;
    const part = page.content.firstElementChild;
    const alarms = [...part.querySelectorAll(".alarm")];
    document.title = part.dataset.title;
    for (const turn of document.querySelectorAll("input[name=turn]")) turn.value = part.dataset.turn;
    part.classList.add("fresh");
    log.append(part);
    if (alarms.length > 0) find("#alarms").replaceChildren(...alarms.map((alarm) => alarm.cloneNode(true)));
    focusOn(part.querySelector(".ask") ?? part);
    old?.remove();
  };

  const send = async (form, submitter) => {
    busy = true;
    say("sending");
    try {
      const body = new URLSearchParams(new FormData(form, submitter));
      const response = await fetch(form.action, { method: "POST", body, headers: { "X-Part": "1" }, redirect: "error" });
      const next = response.headers.get("X-Next");
      if (next) {
        location.assign(next);
        return;
      }
      if (response.status !== 200 && response.status !== 422) throw new Error("whole page");
      show(await response.text(), find("#log .ask"));
      if (response.status === 200) history.replaceState(null, "", "/letter");
      say(response.status === 200 ? "saved" : "");
    } catch {
      postWhole(form, submitter);
    } finally {
      busy = false;
    }
  };

  addEventListener("submit", (event) => {
    const form = event.target;
    if (!log || !form.matches("[data-part]")) return;
    event.preventDefault();
    if (!busy) send(form, event.submitter);
  });

  // A page kept by the browser may be older than the conversation.
  addEventListener("pageshow", (event) => event.persisted && location.reload());

  const can = {
    print: () => print(),
    copy: async (button) => {
      await navigator.clipboard.writeText(find("#link").textContent);
      say("copied");
      button.focus();
    },
    read: (button) => {
      const words = button.textContent;
      button.textContent = button.dataset.other;
      button.dataset.other = words;
      if (speechSynthesis.speaking) return speechSynthesis.cancel();
      const speech = new SpeechSynthesisUtterance(find("#plan").innerText);
      speech.lang = document.documentElement.lang;
      speech.onend = () => speechSynthesis.speaking || button.textContent === words || can.read(button);
      speechSynthesis.speak(speech);
    },
  };
  for (const button of document.querySelectorAll("[data-do]")) {
    if (button.dataset.do === "read" && !("speechSynthesis" in window)) continue;
    button.hidden = false;
    button.addEventListener("click", () => can[button.dataset.do](button));
  }

  // After a full load the question of now, what is wrong with the answer, or a plan that was just made is where one is. The
  // browser goes to the address's own anchor first, which takes the focus away.
  const isNew = performance.getEntriesByType("navigation")[0]?.type === "navigate";
  const first = find("#faults") ?? (location.hash === "#now" ? find("#now") : isNew ? find("#plan h1") : null);
  if (first) addEventListener("load", () => requestAnimationFrame(() => focusOn(first)));
})();
