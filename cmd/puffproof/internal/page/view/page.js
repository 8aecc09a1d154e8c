// The script of the page: it puts the parts that the program sends in their places, and tells the program what is entered,
// moved and pressed. It computes nothing about a launcher. Start reading at listen.
"use strict";
(() => {
  const body = document.body;
  const key = body.dataset.key;
  const about = "key=" + encodeURIComponent(key) + "&design=" + encodeURIComponent(body.dataset.design);

  const watch = { began: 0, timer: 0, lines: [] };

  // --- Parts of the page ---------------------------------------------------------------------------------------------------

  // Attributes that belong to whoever looks at the page, or to this script.
  const own = new Set(["open", "data-at", "data-state", "style"]);

  const alike = (a, b) => a.nodeType === b.nodeType && a.nodeName === b.nodeName && (a.id || "") === (b.id || "");

  // A field that somebody types into keeps what is typed; a slider that is held keeps its ends.
  const typed = (e) => e === document.activeElement && e.value !== e.defaultValue;
  const held = (e) => e.type === "range" && e === document.activeElement;

  function attributes(from, to) {
    if (held(from)) {
      from.later = to;
      return;
    }
    const keep = from.nodeName === "INPUT" && from.type !== "range" && typed(from);
    for (const a of [...from.attributes]) {
      if (!to.hasAttribute(a.name) && !own.has(a.name)) from.removeAttribute(a.name);
    }
    for (const a of to.attributes) {
      if (!own.has(a.name) && from.getAttribute(a.name) !== a.value) from.setAttribute(a.name, a.value);
    }
    const follows = from.dataset.field || from.dataset.slides; // other fields are whoever's who types in them
    if (from.nodeName === "INPUT" && follows && !keep) from.value = to.getAttribute("value") || "";
  }

  function node(from, to) {
    if (from.nodeType !== Node.ELEMENT_NODE) {
      if (from.nodeValue !== to.nodeValue) from.nodeValue = to.nodeValue;
      return;
    }
    attributes(from, to);
    if (from.dataset && from.dataset.slot) return; // its content is a part of its own
    if (from.dataset && "watch" in from.dataset && watch.began) return; // its time runs
    if (from.dataset && "words" in from.dataset) return; // of the moment that is shown
    if (from.nodeName === "TEXTAREA") {
      if (!typed(from) && !("readings" in from.dataset)) from.value = to.textContent;
      return;
    }
    children(from, to);
    if (from.nodeName === "SELECT" && from.dataset.field) {
      const chosen = [...from.options].find((o) => o.hasAttribute("selected"));
      from.value = chosen ? chosen.value : "";
    }
  }

  // A drawing without anything to press or to move is put in whole: it has hundreds of elements, and nothing of its own to keep.
  const drawn = (e) => e.nodeName === "svg" && !e.querySelector("a, [data-air], [data-ball]");

  // children makes the content of one element that of another, and keeps the elements that stand in both, with focus and all.
  function children(from, to) {
    const named = new Map();
    for (const c of from.children) if (c.id) named.set(c.id, c);
    let at = from.firstChild;
    for (const want of [...to.childNodes]) {
      const same = want.id && named.get(want.id);
      if (same && alike(same, want)) {
        if (same === at) at = at.nextSibling;
        else from.insertBefore(same, at);
        node(same, want);
      } else if (at && alike(at, want)) {
        const next = at.nextSibling;
        if (drawn(want)) {
          if (!at.isEqualNode(want)) at.replaceWith(document.importNode(want, true));
        } else node(at, want);
        at = next;
      } else {
        from.insertBefore(document.importNode(want, true), at);
      }
    }
    while (at) {
      const next = at.nextSibling;
      at.remove();
      at = next;
    }
  }

  function put(id, html) {
    const place = document.querySelector(`[data-slot="${id}"]`) || document.getElementById(id);
    if (!place) return;
    const t = document.createElement("template");
    t.innerHTML = html;
    children(place, t.content);
    for (const e of place.querySelectorAll(".play")) moment(e, Number(e.querySelector("[data-moment]").value));
    if (id === "finding") body.classList.toggle("asking", place.querySelector(".finding")?.dataset.stage === "asking");
    if (id === "plots") document.querySelectorAll(".play").forEach(marks);
    for (const e of place.querySelectorAll(".scale")) {
      e.style.setProperty("--from", e.dataset.from);
      e.style.setProperty("--to", e.dataset.to);
    }
  }

  // --- Hearing of the program ----------------------------------------------------------------------------------------------

  const lost = document.getElementById("lost");
  const patience = 12000; // ms without a word; the program says one every 5 s
  let heard = Date.now();
  let source;

  function listen() {
    if (source) source.close();
    source = new EventSource("/events?" + about);
    source.addEventListener("parts", (e) => {
      found();
      for (const p of JSON.parse(e.data)) put(p.id, p.html);
      if (!begun) begin();
    });
    source.addEventListener("alive", found);
    source.addEventListener("error", gone);
  }

  function found() {
    heard = Date.now();
    if (!lost.hidden) {
      lost.hidden = true;
      body.classList.remove("adrift");
    }
  }

  function gone() {
    if (!lost.hidden) return;
    const n = document.querySelectorAll(".differs tbody tr").length;
    lost.textContent = "The program does not answer: it has ended, or this device cannot reach it. What stands here is as it was last." +
      (n > 0 ? " Your changes are listed above (" + n + "); they are not in the file." : "") +
      " If it still runs, this page comes back by itself; else start puffproof page again, which opens a new page.";
    if (n > 0) document.querySelector(".differs").open = true;
    lost.hidden = false;
    body.classList.add("adrift");
  }

  setInterval(() => {
    if (Date.now() - heard > patience) gone();
    if (source.readyState === EventSource.CLOSED) listen();
  }, 2000);

  // --- Telling the program -------------------------------------------------------------------------------------------------

  async function tell(what, values) {
    try {
      const r = await fetch("/do/" + what + "?design=" + encodeURIComponent(body.dataset.design), {
        method: "POST",
        headers: { "X-Puffproof-Key": key },
        body: new URLSearchParams(values),
      });
      if (!r.ok) return { error: await r.text() };
      found();
      return await r.json();
    } catch {
      gone();
      return { error: "The program does not answer." };
    }
  }

  // note says what came of a button, where everyone sees it and a screen reader says it.
  function note(answer) {
    const text = answer.error ? "Not done: " + answer.error : answer.said || "";
    const state = document.querySelector("#actions .state");
    if (state && text) {
      state.textContent = text;
      state.classList.toggle("error", Boolean(answer.error));
      state.setAttribute("role", "status");
    }
  }

  // What is entered while an answer is awaited waits, and of one field only the last counts.
  const waiting = new Map();
  let sending = false;

  function enter(field, value, gesture) {
    waiting.set(field.dataset.field + (field.hasAttribute("data-rung") ? " of the ladder" : ""), { field, value, gesture });
    send();
  }

  async function send() {
    if (sending || waiting.size === 0) return;
    sending = true;
    const [name, one] = waiting.entries().next().value;
    waiting.delete(name);
    const key = one.field.dataset.field;
    const answer = await tell(one.field.hasAttribute("data-rung") ? "rung" : "edit", { key, value: one.value, gesture: one.gesture });
    const refused = document.querySelector(`#d-${one.field.id} .refused`);
    if (refused) {
      refused.hidden = !answer.error;
      refused.textContent = answer.error ? "Not taken: " + answer.error : "";
    }
    sending = false;
    send();
  }

  let gestures = 0;

  document.addEventListener("change", (e) => {
    const t = e.target;
    if (t.dataset && t.dataset.field) {
      t.defaultValue = t.value;
      enter(t, t.value, "");
    }
    if (t.name === "state") t.closest("figure").dataset.state = t.value;
  });

  document.addEventListener("focusin", (e) => {
    if (e.target.type === "range") gestures++;
  });
  document.addEventListener("pointerdown", (e) => {
    if (e.target.type === "range") gestures++;
  });

  document.addEventListener("focusout", (e) => {
    const t = e.target;
    if (t.later) {
      const next = t.later;
      t.later = null;
      setTimeout(() => { if (t.isConnected) attributes(t, next); });
    }
  });

  document.addEventListener("input", (e) => {
    const t = e.target;
    if (t.type !== "range" || !t.dataset.slides) return;
    const field = document.getElementById(t.dataset.slides);
    const text = t.dataset.lead + Number(t.value).toFixed(Number(t.dataset.decimals)) + t.dataset.tail;
    field.value = text;
    t.setAttribute("aria-valuetext", text);
    enter(field, text, "slide " + gestures);
  });

  document.addEventListener("click", async (e) => {
    const button = e.target.closest("button[data-do]");
    if (button) {
      const { do: what, ...values } = button.dataset;
      const answer = await tell(what, values);
      note(answer);
      return;
    }
    const other = e.target.closest("a.other");
    if (other) {
      e.preventDefault();
      location.assign("/?key=" + encodeURIComponent(key) + "&design=" + encodeURIComponent(other.dataset.design));
      return;
    }
    const link = e.target.closest("a[href^='#'], svg a");
    if (link) {
      const id = (link.getAttribute("href") || "").slice(1);
      if (id && show(id)) e.preventDefault();
    }
  });

  // show opens the figures of a part, or a field in them, and goes there.
  function show(id) {
    const there = document.getElementById(id);
    if (!there) return false;
    for (let d = there.closest("details"); d; d = d.parentElement.closest("details")) d.open = true;
    // Not the summary: the key that opened it would go on to close it.
    const to = there.nodeName === "DETAILS" ? there.querySelector("[data-slot]") || there : there;
    to.focus();
    to.scrollIntoView({ block: "nearest" });
    document.querySelectorAll(".place.chosen").forEach((p) => p.classList.remove("chosen"));
    document.querySelectorAll(`.place[href="#${id}"]`).forEach((p) => p.classList.add("chosen"));
    return true;
  }

  document.addEventListener("submit", async (e) => {
    const form = e.target.closest("form[data-do]");
    if (!form) return;
    e.preventDefault();
    const answer = await tell(form.dataset.do, new FormData(form));
    note(answer);
    if (!answer.error && form.dataset.do === "done") form.querySelector("[name=value]").value = "";
  });

  // --- Readings: a file that is chosen or dropped, and the stopwatch ---------------------------------------------------------

  async function take(file) {
    const form = document.querySelector("[data-drop] form");
    if (!form || !file) return;
    if (file.size > 1 << 20) {
      note({ error: file.name + " is larger than a file of readings." });
      return;
    }
    form.querySelector("[data-readings]").value = await file.text();
    form.querySelector("[name=name]").value = file.name;
    form.requestSubmit();
  }

  document.addEventListener("change", (e) => {
    if (e.target.matches("[data-file]")) take(e.target.files[0]);
  });
  for (const kind of ["dragover", "dragleave", "drop"]) {
    document.addEventListener(kind, (e) => {
      const place = e.target.closest && e.target.closest("[data-drop]");
      if (!place) return;
      e.preventDefault();
      place.classList.toggle("dropping", kind === "dragover");
      if (kind === "drop") take(e.dataTransfer.files[0]);
    });
  }

  // The stopwatch shows what the program computed for this second: the band only, never less.

  function course() {
    const chosen = document.querySelector("[data-course]");
    return chosen ? JSON.parse(chosen.value) : [];
  }

  function tick() {
    const t = (performance.now() - watch.began) / 1000;
    const clock = document.querySelector("[data-clock]");
    const band = document.querySelector("[data-band]");
    if (!clock) return;
    clock.textContent = t.toFixed(1) + " s";
    const rows = course();
    let i = rows.findIndex((r) => Number(r[0]) > t);
    if (i < 0) {
      band.textContent = rows.length ? "By now: at most " + rows[rows.length - 1][3] + "." : "";
      return;
    }
    i = Math.max(i, 1);
    band.textContent = "Now between " + rows[i][1] + " and " + rows[i - 1][3] + ", expected about " + rows[i - 1][2] + ".";
  }

  document.addEventListener("click", (e) => {
    const on = (name) => e.target.closest("[" + name + "]");
    const show = (name, is) => { const x = document.querySelector("[" + name + "]"); if (x) x.hidden = !is; };
    if (on("data-watch-go")) {
      const button = on("data-watch-go");
      if (watch.timer) {
        clearInterval(watch.timer);
        watch.timer = 0;
        button.textContent = "Start anew";
        return;
      }
      watch.began = performance.now();
      watch.lines = [];
      watch.timer = setInterval(tick, 100);
      button.textContent = "Stop";
      for (const name of ["data-watch-read", "data-watch-clear", "data-watch-gauge"]) show(name, true);
    } else if (on("data-watch-read")) {
      const t = (performance.now() - watch.began) / 1000;
      const field = document.querySelector("[data-reading]");
      const found = /^\s*([0-9]+(?:\.[0-9]+)?)\s*([A-Za-z]+)\s*$/.exec(field.value.replace(",", "."));
      if (!found) {
        note({ error: "a reading is a figure with its unit, such as 0.15 bar" });
        field.focus();
        return;
      }
      const into = document.querySelector("[data-readings]");
      if (watch.lines.length === 0) watch.lines.push("time [s],pressure [" + found[2] + "]");
      watch.lines.push(t.toFixed(1) + "," + found[1]);
      into.value = watch.lines.join("\n") + "\n";
      field.value = "";
      field.focus();
    } else if (on("data-watch-clear")) {
      watch.lines = [];
      document.querySelector("[data-readings]").value = "";
    }
  });

  document.addEventListener("keydown", (e) => {
    if (!(e.ctrlKey || e.metaKey) || e.altKey) return;
    const typing = e.target.matches("input[type=text], textarea") && typed(e.target);
    const press = { z: e.shiftKey ? "redo" : "undo", y: "redo", s: "save" }[e.key.toLowerCase()];
    if (!press || (press !== "save" && typing)) return;
    e.preventDefault();
    if (press === "save" && typing) e.target.dispatchEvent(new Event("change", { bubbles: true }));
    tell(press, {}).then(note);
  });

  // --- Playing slowly --------------------------------------------------------------------------------------------------------

  // moment shows one frame of a play, as the program wrote it.
  function moment(play, n) {
    const all = JSON.parse(play.dataset.frames);
    const f = all[Math.min(n, all.length - 1)];
    play.querySelectorAll("[data-air]").forEach((rect, i) => {
      const full = 50 * Math.min(1, f.fill[i] ?? 0);
      rect.setAttribute("y", (58 - full).toFixed(1));
      rect.setAttribute("height", full.toFixed(1));
    });
    const ball = play.querySelector("[data-ball]");
    if (ball) ball.setAttribute("cx", (17 + 243 * f.at).toFixed(1));
    play.querySelector("[data-words]").textContent = f.words;
    play.dataset.at = f.at;
    marks(play);
  }

  // marks puts the line of the moment into the plots of what is played, while it is open.
  function marks(play) {
    for (const line of document.querySelectorAll(`.now[data-of="${play.dataset.id}"]`)) {
      const from = Number(line.dataset.from), to = Number(line.dataset.to);
      line.classList.toggle("seen", play.open);
      line.style.insetInlineStart = 100 * (from + (to - from) * Number(play.dataset.at)) + "%";
    }
  }

  document.addEventListener("toggle", (e) => {
    if (e.target.matches(".play")) marks(e.target);
  }, true);

  const playing = { timer: 0, play: null };

  function halt() {
    clearInterval(playing.timer);
    if (playing.play) playing.play.querySelector("[data-play]").textContent = "Play";
    playing.timer = 0;
    playing.play = null;
  }

  document.addEventListener("input", (e) => {
    if (!e.target.matches("[data-moment]")) return;
    halt();
    moment(e.target.closest(".play"), Number(e.target.value));
  });

  document.addEventListener("click", (e) => {
    const button = e.target.closest("[data-play]");
    if (!button) return;
    const play = button.closest(".play");
    const again = playing.play === play;
    halt();
    if (again) return;
    const way = play.querySelector("[data-moment]");
    if (Number(way.value) >= Number(way.max)) way.value = 0;
    // Whoever wants no motion gets steps that an eye can follow one by one.
    const pace = matchMedia("(prefers-reduced-motion: reduce)").matches ? 1000 : 100;
    playing.play = play;
    button.textContent = "Halt";
    playing.timer = setInterval(() => {
      way.value = Number(way.value) + (pace > 500 ? 8 : 1);
      moment(play, Number(way.value));
      if (Number(way.value) >= Number(way.max)) halt();
    }, pace);
  });

  let begun = false;
  function begin() {
    begun = true;
    if (location.hash.length > 1) show(location.hash.slice(1));
  }

  listen();
})();
