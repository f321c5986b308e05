// A made radio: what the browser would tell of one that is plugged in. A hand moves it in steps, as a hand does.
(() => {
  const pads = [null, null, null, null];
  const stamp = p => { p.timestamp = performance.now(); };
  globalThis.pilot = {
    plug(i, id, axes, buttons) {
      pads[i] = { index: i, id, connected: true, mapping: "", timestamp: performance.now(), axes: [...axes], buttons: Array.from({ length: buttons }, () => ({ pressed: false, value: 0 })) };
    },
    pull(i) { if (pads[i]) pads[i].connected = false; pads[i] = null; },
    press(i, button, on) { pads[i].buttons[button] = { pressed: on, value: on ? 1 : 0 }; stamp(pads[i]); },
    // to brings axes to values within ms.
    to(i, axes, ms) {
      const p = pads[i], from = [...p.axes], begun = performance.now();
      return new Promise(done => {
        const step = () => {
          const share = ms > 0 ? Math.min((performance.now() - begun) / ms, 1) : 1;
          for (const n in axes) p.axes[n] = from[n] + (axes[n] - from[n]) * share;
          stamp(p);
          if (share < 1) setTimeout(step, 10); else done();
        };
        step();
      });
    },
  };
  Object.defineProperty(navigator, "getGamepads", { configurable: true, value: () => [...pads] });
})();
