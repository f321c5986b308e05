"use strict";
// The beginning of the page: it fetches the program, shows how far that is, says what is in the way, and stands between the program and the page
// (propsoffPage). Every sentence stands in the page itself, in each language; this script shows those that hold.
(() => {
  const page = document.documentElement, body = document.body, at = (id) => document.getElementById(id);
  const show = (name, on = true) => document.querySelectorAll(`[data-note="${name}"]`).forEach((e) => { e.hidden = !on; });
  const languages = body.dataset.languages.split(" ");

  // ---- language: what the browser wishes, until the program tells which one its sheets are in

  function language(code) {
    if (!languages.includes(code)) return;
    page.lang = code;
    document.querySelectorAll("[data-label]").forEach((e) => {
      const label = JSON.parse(e.dataset.label)[code];
      if (e.matches("input")) e.placeholder = label;
      e.setAttribute("aria-label", label);
      if (e.matches("button")) e.title = label;
    });
  }
  page.classList.remove("everything"); // without a script each language is shown
  language((navigator.languages || [navigator.language]).map((l) => l.slice(0, 2).toLowerCase()).find((l) => languages.includes(l)) || languages[0]);

  // ---- what the program tells the page, and what the page tells it

  let heard = 0;
  function aloud(place, text, lang) {
    const line = document.createElement("p");
    line.lang = lang || page.lang;
    line.textContent = text;
    if (++heard > 20) place.firstChild?.remove();
    place.append(line);
  }
  const bridge = globalThis.propsoffPage = {
    keeps: true,
    say: (text, lang) => aloud(at("said"), text, lang),
    alarm: (text, lang) => aloud(at("alarmed"), text, lang),
    language,
    coloured(dark, colours) { // as the sheet is, whatever the system says
      page.style.colorScheme = dark ? "dark" : "light";
      for (const [name, colour] of Object.entries(colours)) page.style.setProperty(`--${name}`, colour);
      document.querySelectorAll("meta[name=theme-color]").forEach((e) => { e.content = colours.panel; });
    },
    ended(text) {
      page.classList.add("ended");
      at("why").textContent = text || "";
      show("ended-kept", bridge.keeps);
      show("ended-gone", !bridge.keeps);
      show("not-kept", false); // nothing can be downloaded any more
      cover("ended");
    },
    download(name, bytes, type) {
      const link = document.createElement("a");
      link.href = URL.createObjectURL(new Blob([bytes], { type }));
      link.download = name;
      link.click();
      setTimeout(() => URL.revokeObjectURL(link.href), 60000);
    },
    asks(what, typed) {
      const field = at("field"), same = at("asked").textContent === what;
      at("asked").textContent = what;
      // What comes back of what is being typed may be older than what stands in the field.
      if (!same || document.activeElement !== field || !typed) field.value = was = typed;
      if (!what && document.activeElement === field) back();
      typing(wanted || !!what && matchMedia("(pointer: coarse)").matches); // who has keys needs no field
    },
  };
  document.addEventListener("visibilitychange", () => bridge.hidden?.(document.hidden));

  // A sentence for the eye, for as long as it takes to read it. A dialog lies over it, and keeps the ear from all but itself: there its own line says it.
  function tell(text) {
    at("told").textContent = text;
    at("told").hidden = !text;
    clearTimeout(tell.last);
    tell.last = setTimeout(() => { at("told").hidden = true; }, 4000 + 60 * text.length);
  }

  bridge.quiet = () => tell(""); // what follows says the next word
  bridge.answer = (text) => { at("answered").textContent = text; };
  bridge.tell = (text) => {
    if (at("box").open) return bridge.answer(text);
    tell(text);
    bridge.say(text);
  };

  // What the address asks for and cannot have (or, without a name, what is kept and cannot be read) is said once, until it is put away, and is asked no more at the next start; the rest of the address stays.
  bridge.unused = (name, why) => {
    if (name === "play") {
      played = false;
      at("unplay").hidden = true;
    }
    const to = new URL(location.href), line = document.createElement("p");
    to.searchParams.delete(name);
    history.replaceState(history.state, "", to);
    line.textContent = why;
    at("unused-said").append(line);
    unused(true);
  };
  at("unused-read").onclick = () => { unused(false); back(); };
  window.addEventListener("resize", () => page.style.setProperty("--unused", `${at("unused").offsetHeight}px`), true);
  function unused(is) {
    at("unused").hidden = !is;
    resized();
  }

  // ---- a take is played in a program of its own, which begins with it; nobody's practice goes on meanwhile

  let played = new URL(location.href).searchParams.has("play");
  function play(path) {
    const to = new URL(location.href);
    if (path) to.searchParams.set("play", path); else to.searchParams.delete("play");
    to.hash = "";
    location.assign(to);
  }
  bridge.play = play;
  at("unplay").hidden = !played;
  at("unplay").onclick = () => play("");

  // ---- the strip

  const canvas = () => document.querySelector("canvas");
  const back = () => canvas()?.focus();
  const resized = () => window.dispatchEvent(new Event("resize"));
  at("hide").onclick = () => { page.classList.add("bare"); at("show").hidden = false; resized(); back(); };
  at("show").onclick = () => { page.classList.remove("bare"); at("show").hidden = true; resized(); at("hide").focus(); };
  at("full").hidden = !document.fullscreenEnabled;
  at("full").onclick = () => {
    (document.fullscreenElement ? document.exitFullscreen() : page.requestFullscreen()).catch(() => {});
    back();
  };
  document.addEventListener("fullscreenchange", () => {
    page.classList.toggle("drawn-only", document.fullscreenElement === canvas() && !!canvas()); // the program's own key for it
    resized();
  });

  // ---- larger: on a phone's screen a sheet can be read at the size of a desk's, a part of it at a time; a finger moves it where there is nothing to press

  const part = { across: 0, down: 0, wide: 0, high: 0 };
  const room = () => ({ wide: innerWidth, high: innerHeight - (page.classList.contains("bare") ? 0 : at("strip").offsetHeight) - at("unused").offsetHeight });
  function grown() {
    const r = room(), least = r.wide > r.high ? 960 : 740, times = Math.max(least / r.wide, r.wide > r.high ? 600 / r.high : 0);
    return Math.min(Math.max(times, 1), 4000 / devicePixelRatio / Math.max(r.wide, r.high)); // what a phone's graphics draws at most
  }
  bridge.pan = (across, down) => {
    const r = room();
    part.across = Math.min(0, Math.max(r.wide - part.wide, part.across + across));
    part.down = Math.min(0, Math.max(r.high - part.high, part.down + down));
    page.style.setProperty("--across", `${part.across}px`);
    page.style.setProperty("--down", `${part.down}px`);
  };
  function size() {
    const r = room(), times = grown();
    at("larger").hidden = times < 1.1;
    if (at("larger").hidden) page.classList.remove("large");
    at("larger").setAttribute("aria-pressed", page.classList.contains("large"));
    Object.assign(part, { wide: r.wide * times, high: r.high * times });
    page.style.setProperty("--wide", `${part.wide}px`);
    page.style.setProperty("--high", `${part.high}px`);
    bridge.pan(0, 0);
  }
  window.addEventListener("resize", size, true); // before the engine looks how large the body is
  at("larger").onclick = () => { page.classList.toggle("large"); resized(); back(); };
  size();

  async function take(files) {
    const said = [];
    for (const f of files) {
      const bytes = new Uint8Array(await f.arrayBuffer());
      if (bridge.take) said.push(await bridge.take(f.name, bytes));
    }
    if (said.length) bridge.tell(said.join("\n")); // each has its say, none takes the place of another
    bridge.taken?.();
    if (!at("box").open) back();
  }
  at("files").onclick = () => bridge.files();
  at("pick").onchange = () => { take(at("pick").files).finally(() => { at("pick").value = ""; }); };
  window.addEventListener("dragover", (e) => e.preventDefault(), true);
  window.addEventListener("drop", (e) => {
    e.preventDefault();
    e.stopPropagation(); // the engine reads whole folders of it
    take(e.dataTransfer.files);
  }, true);

  // The field: each change goes to the program as what a keyboard would have typed.
  let was = "", wanted = false;
  function typing(on) {
    if (at("typing").hidden !== on) return;
    at("typing").hidden = !on;
    page.classList.toggle("typing", on);
    resized();
  }
  const type = (text) => bridge.typed?.(text);
  at("text").onclick = () => {
    wanted = at("typing").hidden;
    typing(wanted);
    if (wanted) at("field").focus(); else back();
  };
  at("field").oninput = (e) => {
    if (e.isComposing) return;
    const now = at("field").value;
    let same = 0;
    while (same < Math.min(was.length, now.length) && was[same] === now[same]) same++;
    type("\b".repeat([...was.slice(same)].length) + now.slice(same));
    was = now;
  };
  at("field").addEventListener("compositionend", () => at("field").oninput({}));
  at("typing").onsubmit = (e) => {
    e.preventDefault();
    type("\n");
    at("field").value = was = "";
  };

  // ---- the cover: cautions, how far the program has come, what is in the way

  function cover(note) {
    for (const other of ["loading", "starting", "failed", "old", "no-graphics", "ended"]) show(other, other === note);
    at("again").hidden = !["failed", "ended"].includes(note);
    at("progress").hidden = !["loading", "starting"].includes(note);
    at("cover").hidden = !note;
  }
  at("again").onclick = () => { if (played) play(""); else location.reload(); }; // what could not be played cannot the next time either

  function graphics() {
    try {
      return !!document.createElement("canvas").getContext("webgl2");
    } catch {
      return false;
    }
  }

  // program gives the program as a stream of its bytes, and shows how far it has come. A host may send what is packed as it is, or have the browser unpack it.
  async function program() {
    const answer = await fetch(`propsoff.wasm.gz?v=${body.dataset.version}`);
    if (!answer.ok) throw new Error(`propsoff.wasm.gz: ${answer.status} ${answer.statusText}`);
    const from = answer.body.getReader(), first = await from.read();
    const packed = first.value?.[0] === 0x1f && first.value?.[1] === 0x8b;
    const whole = Number(packed ? body.dataset.packed : body.dataset.plain);
    let come = 0;
    const count = (value) => {
      come += value.length;
      const part = Math.min(1, come / whole);
      at("bar").value = part;
      at("percent").textContent = `${Math.floor(100 * part)} %`;
      if (part === 1 && at("again").hidden) cover("starting");
      return value;
    };
    const stream = new ReadableStream({
      start(to) { if (first.value) to.enqueue(count(first.value)); if (first.done) to.close(); },
      async pull(to) {
        const { done, value } = await from.read();
        if (done) to.close(); else to.enqueue(count(value));
      },
      cancel: (why) => from.cancel(why),
    });
    return packed ? stream.pipeThrough(new DecompressionStream("gzip")) : stream;
  }

  // shown waits for the first picture: the engine makes the canvas of full size with it.
  const shown = () => new Promise((done) => {
    const look = () => canvas()?.width > 16 ? requestAnimationFrame(() => requestAnimationFrame(done)) : setTimeout(look, 30);
    look();
  });

  // A newer page that came while an older one was open is taken at the next start, if no other page is open; then this one begins once more.
  async function newest() {
    const has = await navigator.serviceWorker?.getRegistration().catch(() => {});
    if (!has?.waiting || sessionStorage.getItem("propsoff-newest")) {
      sessionStorage.removeItem("propsoff-newest");
      return false;
    }
    return new Promise((done) => {
      navigator.serviceWorker.addEventListener("controllerchange", () => {
        sessionStorage.setItem("propsoff-newest", "1");
        location.reload();
        done(true);
      });
      has.waiting.postMessage("begin");
      setTimeout(() => done(false), 1000); // another page is open, and keeps the older one
    });
  }

  async function run() {
    if (typeof WebAssembly !== "object" || typeof DecompressionStream !== "function" || !WebAssembly.instantiateStreaming) return cover("old");
    if (!graphics()) return cover("no-graphics");
    if (await newest().catch(() => false)) return;
    cover("loading");
    const { keeps, why } = await propsoffFloor.begun;
    bridge.keeps = keeps;
    if (!keeps) console.warn("propsoff: nothing is kept:", why);
    show("not-kept", !keeps);
    show("kept-lasts", keeps);
    at("kept").hidden = keeps;
    show(navigator.getGamepads ? "press" : isSecureContext ? "no-pads" : "no-pads-here");
    const go = new Go();
    Object.assign(go.env, propsoffFloor.environment);
    go.argv = ["propsoff", ...asked()];
    let code = 0;
    go.exit = (n) => { code = n; };
    const { instance } = await WebAssembly.instantiateStreaming(new Response(await program(), { headers: { "Content-Type": "application/wasm" } }), go.importObject);
    performance.mark("propsoff-come");
    cover("starting");
    bridge.shown = shown();
    bridge.shown.then(() => {
      performance.mark("propsoff-shown");
      page.classList.add("runs");
      cover("");
      back();
    });
    navigator.serviceWorker?.register("worker.js").catch((e) => console.warn("propsoff: not kept for use without a network:", e));
    for (const first of ["pointerdown", "keydown"]) window.addEventListener(first, () => navigator.storage?.persist?.().catch(() => {}), { once: true });
    await go.run(instance);
    if (!page.classList.contains("ended")) bridge.ended(code ? propsoffFloor.complaint() : "");
  }

  // asked are the flags that the address carries, such as ?open=drills.
  const asked = () => [...new URLSearchParams(location.search)].filter(([name]) => ["language", "sheet", "open", "play", "craft", "pupil", "outside"].includes(name)).map(([name, value]) => `--${name}=${value}`);

  run().catch((e) => {
    console.error(e);
    at("why").textContent = String(e && e.message || e);
    cover("failed");
  });
})();
