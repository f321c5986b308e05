"use strict";
// The panel of what this browser keeps: download one file or all, open others, give a radio or a craft away as a link and as a code for a phone.
(() => {
  const at = (id) => document.getElementById(id), bridge = globalThis.propsoffPage;
  const save = (name, bytes) => bytes && bridge.download(name.split("/").pop(), bytes, "application/octet-stream");
  const size = (n) => new Intl.NumberFormat(document.documentElement.lang, n < 1e6 ? { style: "unit", unit: "kilobyte", maximumFractionDigits: n < 1e4 ? 1 : 0 } : { style: "unit", unit: "megabyte", maximumFractionDigits: 1 })
    .format(n < 1e6 ? n / 1e3 : n / 1e6);

  async function list() {
    const files = JSON.parse(await bridge.kept());
    at("list").replaceChildren(...files.map((f) => {
      const row = at("row").content.cloneNode(true).firstElementChild;
      row.querySelector(".kind").textContent = f.kind;
      row.querySelector(".file").textContent = f.name.split("/").pop();
      row.querySelector(".when").textContent = `${size(f.size)} · ${new Date(f.at).toLocaleString(document.documentElement.lang, { dateStyle: "medium", timeStyle: "short" })}`;
      row.querySelector(".save").onclick = async () => save(f.name, await bridge.read(f.name));
      row.querySelector(".play").hidden = !f.plays || !bridge.keeps; // the page begins anew for it, and would find nothing
      row.querySelector(".play").onclick = () => bridge.play(f.plays);
      for (const [button, may, act] of [[".fly", f.flies, "file-fly"], [".rename", f.renames, "file-rename"], [".delete", f.goes, "file-delete"]]) {
        row.querySelector(button).hidden = !may;
        row.querySelector(button).onclick = () => { at("box").close(); bridge.quiet(); bridge.withFile(act, f.name); }; // the sheet of files asks, and says what came of it
      }
      row.querySelector(".give").hidden = !f.short;
      row.querySelector(".give").onclick = () => give(f.name);
      return row;
    }));
    at("none").hidden = files.length > 0;
    at("all").hidden = files.length === 0;
  }

  async function give(name) {
    const link = JSON.parse(await bridge.link(name, location.href.split("#")[0]));
    if (link.wrong) return bridge.tell(link.wrong);
    at("code").setAttribute("viewBox", `0 0 ${link.side || 1} ${link.side || 1}`);
    at("code").toggleAttribute("hidden", !link.code);
    at("modules").setAttribute("d", link.code || "");
    for (const e of document.querySelectorAll("[data-way]")) e.hidden = e.dataset.way !== link.way;
    at("link").value = link.link;
    copied("");
    at("given").hidden = false;
    at("given").scrollIntoView({ block: "nearest" });
    at("link").focus();
    at("link").select();
  }

  bridge.files = async () => {
    if (!bridge.kept) return at("pick").click();
    at("given").hidden = true;
    await list();
    at("box").showModal();
  };
  at("all").onclick = async () => save(`propsoff-${new Date().toISOString().slice(0, 10)}.zip`, await bridge.pack());
  at("open").onclick = () => at("pick").click();
  at("close").onclick = () => at("box").close();
  // copied says what came of copying. The words go and come again, so that a second time is read out too.
  function copied(name) {
    for (const e of document.querySelectorAll("[data-copy]")) e.hidden = true;
    clearTimeout(copied.soon);
    if (name) copied.soon = setTimeout(() => { document.querySelector(`[data-copy="${name}"]`).hidden = false; }, 50);
  }
  at("copy").onclick = async () => {
    copied("");
    at("link").focus();
    at("link").select();
    let done = false;
    try {
      await navigator.clipboard.writeText(at("link").value); // there on a secure address alone
      done = true;
    } catch {
      at("link").select();
      done = document.execCommand("copy"); // the older way, of what is selected
    }
    copied(done ? "copied" : "not-copied");
  };
  at("box").addEventListener("close", () => { bridge.answer(""); document.querySelector("canvas")?.focus(); });
  bridge.taken = () => at("box").open && list();

  // A link that carries a file is opened once, and leaves the address then: whoever loads the page again is not told again.
  async function opened() {
    const fragment = location.hash;
    if (!bridge.opened || !fragment.startsWith("#file")) return;
    history.replaceState(null, "", location.pathname + location.search);
    const said = await bridge.opened(fragment);
    if (said) bridge.tell(said);
  }
  bridge.offered = opened;
  window.addEventListener("hashchange", opened);
})();
