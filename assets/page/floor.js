"use strict";
// The file layer on which the program stands in a page: globalThis.fs as Go's syscall/js asks for it, kept in the browser's own database (W3C Indexed Database).
// Every operation is one transaction, so that two pages see one state of one disk, and a page that is killed leaves each operation whole or undone. Where the
// browser keeps nothing for this page, the same operations work in memory, and propsoffFloor.keeps is false.
(() => {
  const piece = 16384; // bytes of a file that stand together, so that appending stays cheap (ours)
  const root = 1;
  const stores = ["nodes", "names", "pieces", "gone", "leases"];
  const wrong = (code) => Object.assign(new Error(code), { code });

  // codeOf is what the system's interface calls a fault of the database.
  function codeOf(e) {
    if (e && typeof e.code === "string") return e;
    if (e && e.name === "QuotaExceededError") return wrong("ENOSPC");
    console.error("propsoff: the browser's storage:", e);
    return wrong("EIO");
  }

  // ---- the two places that things are kept in: a place(writes, work, lasts) does work as a whole or not at all.

  // inDatabase keeps in the browser's database. lasts: the answer comes once the disk has it.
  function inDatabase(db) {
    return (writes, work, lasts) => new Promise((done, failed) => {
      let t, value, why;
      try {
        t = db.transaction(stores, writes ? "readwrite" : "readonly", { durability: lasts ? "strict" : "relaxed" });
      } catch (e) {
        failed(codeOf(e));
        return;
      }
      t.oncomplete = () => done(value);
      t.onabort = () => failed(codeOf(why || t.error));
      const asked = (request) => new Promise((ok, no) => {
        request.onsuccess = () => ok(request.result);
        request.onerror = () => no(request.error);
      });
      const of = (store) => t.objectStore(store);
      const under = (id) => IDBKeyRange.bound([id], [id, []]);
      work({
        get: (store, key) => asked(of(store).get(key)),
        put: (store, key, v) => asked(of(store).put(v, key)),
        drop: (store, key) => asked(of(store).delete(key)),
        keysUnder: (store, id) => asked(of(store).getAllKeys(under(id))),
        dropUnder: (store, id) => asked(of(store).delete(under(id))),
        keys: (store) => asked(of(store).getAllKeys()),
      }).then((v) => {
        value = v;
        if (t.commit) try { t.commit(); } catch { /* it has ended by itself */ }
      }, (e) => {
        why = e;
        try { t.abort(); } catch { failed(codeOf(e)); }
      });
    });
  }

  // inMemory keeps until the page ends.
  function inMemory() {
    const all = Object.fromEntries(stores.map((s) => [s, new Map()]));
    let last = Promise.resolve();
    return (writes, work) => {
      const turn = async () => {
        const undo = [];
        const change = (store, key, v) => {
          const m = all[store], k = JSON.stringify(key), was = m.get(k);
          undo.push(() => was === undefined ? m.delete(k) : m.set(k, was));
          if (v === undefined) m.delete(k); else m.set(k, { key, v });
        };
        const keysUnder = (store, id) => [...all[store].values()].map((e) => e.key).filter((k) => k[0] === id);
        try {
          return await work({
            get: async (store, key) => all[store].get(JSON.stringify(key))?.v,
            put: async (store, key, v) => change(store, key, v),
            drop: async (store, key) => change(store, key),
            keysUnder: async (store, id) => keysUnder(store, id),
            dropUnder: async (store, id) => keysUnder(store, id).forEach((k) => change(store, k)),
            keys: async (store) => [...all[store].values()].map((e) => e.key),
          });
        } catch (e) {
          undo.reverse().forEach((f) => f());
          throw codeOf(e);
        }
      };
      return last = last.then(turn, turn);
    };
  }

  // database opens what is kept; an error where the browser keeps nothing for this page.
  const database = () => new Promise((done, failed) => {
    setTimeout(() => failed(new Error("the browser's storage does not answer")), 10000);
    const request = indexedDB.open("propsoff-floor", 1);
    request.onupgradeneeded = () => stores.forEach((s) => request.result.createObjectStore(s));
    request.onsuccess = () => done(request.result);
    request.onerror = () => failed(request.error);
  });

  let place;

  // transact works in the place. What has no name any more may take the room that is missing.
  const transact = (writes, work, lasts) => place(writes, work, lasts).catch(async (e) => {
    if (e.code !== "ENOSPC") throw e;
    await sweep();
    return place(writes, work, lasts);
  });

  // ---- paths and nodes. A node is {kind: "file", "folder" or "link", mode, size, time, links, target}; a value that was read is never changed, but put anew.

  let here = "/home";
  const whole = (path) => path.startsWith("/") ? path : here + "/" + path;

  // tidy is an absolute path without "." and "..", links not followed.
  function tidy(path) {
    const out = [];
    for (const part of whole(path).split("/")) {
      if (part === "..") out.pop();
      else if (part && part !== ".") out.push(part);
    }
    return "/" + out.join("/");
  }

  const may = (node, bit) => { if (!(node.mode & bit)) throw wrong("EACCES"); };
  const reading = 0o400, writing = 0o200;

  // find goes along a path: {folder, name, ino, node}; without ino and node where only the last name is missing.
  async function find(tx, path, follow = true, hops = 0) {
    if (hops > 40) throw wrong("ELOOP");
    path = whole(path);
    const parts = path.split("/").filter((p) => p && p !== ".");
    let way = [{ folder: root, name: "", ino: root, node: await tx.get("nodes", root) }];
    for (let i = 0; i < parts.length; i++) {
      const name = parts[i], last = i === parts.length - 1, at = way[way.length - 1];
      if (at.node.kind !== "folder") throw wrong("ENOTDIR");
      if (name === "..") {
        if (way.length > 1) way.pop();
        continue;
      }
      if (new TextEncoder().encode(name).length > 255) throw wrong("ENAMETOOLONG");
      const ino = await tx.get("names", [at.ino, name]);
      if (ino === undefined) {
        if (!last) throw wrong("ENOENT");
        return { folder: at.ino, name, in: at.node };
      }
      const node = await tx.get("nodes", ino);
      if (node.kind === "link" && (!last || follow || path.endsWith("/"))) {
        const base = node.target.startsWith("/") ? "" : "/" + way.slice(1).map((w) => w.name).join("/") + "/";
        return find(tx, [base + node.target, ...parts.slice(i + 1)].join("/"), follow, hops + 1);
      }
      way.push({ folder: at.ino, name, ino, node, in: at.node });
    }
    const at = way[way.length - 1];
    if (path.endsWith("/") && at.node.kind !== "folder") throw wrong("ENOTDIR");
    return at;
  }

  // there is find of what must be there.
  async function there(tx, path, follow) {
    const at = await find(tx, path, follow);
    if (at.ino === undefined) throw wrong("ENOENT");
    return at;
  }

  // make puts a new node at a place that find found free.
  async function make(tx, at, node) {
    may(at.in, writing);
    const ino = (await tx.get("nodes", 0) || root) + 1;
    await tx.put("nodes", 0, ino);
    node = { size: 0, time: Date.now(), links: 1, ...node };
    await tx.put("nodes", ino, node);
    await tx.put("names", [at.folder, at.name], ino);
    return { ...at, ino, node };
  }

  // empty takes away a node that has no name and that nobody has open.
  async function empty(tx, ino) {
    await tx.dropUnder("pieces", ino);
    await tx.drop("nodes", ino);
  }

  const opened = (ino) => [...open.values()].some((f) => f.ino === ino);

  // part takes a name from a node. What has no name left is emptied once nobody can have it open; at once, where only is told: nobody else is there.
  async function part(tx, at, only) {
    await tx.drop("names", [at.folder, at.name]);
    const links = at.node.links - 1;
    if (only && links === 0 && !opened(at.ino)) return empty(tx, at.ino);
    await tx.put("nodes", at.ino, { ...at.node, links });
    if (links === 0) {
      await tx.put("gone", at.ino, Date.now());
      setTimeout(sweep, 500);
    }
  }

  // cut makes a file so long.
  async function cut(tx, ino, node, size) {
    if (size === 0) await tx.dropUnder("pieces", ino);
    else if (size < node.size) {
      for (const key of await tx.keysUnder("pieces", ino)) if (key[1] * piece >= size) await tx.drop("pieces", key);
      const i = Math.floor(size / piece), was = await tx.get("pieces", [ino, i]);
      if (was && was.length > size - i * piece) await tx.put("pieces", [ino, i], was.slice(0, size - i * piece));
    }
    await tx.put("nodes", ino, { ...node, size, time: Date.now() });
  }

  async function write(tx, ino, bytes, at) {
    const node = await tx.get("nodes", ino);
    for (let done = 0; done < bytes.length;) {
      const i = Math.floor((at + done) / piece), from = (at + done) % piece, n = Math.min(piece - from, bytes.length - done);
      const was = n < piece ? await tx.get("pieces", [ino, i]) : undefined;
      const now = new Uint8Array(Math.max(from + n, was ? was.length : 0));
      if (was) now.set(was);
      now.set(bytes.subarray(done, done + n), from);
      await tx.put("pieces", [ino, i], now);
      done += n;
    }
    await tx.put("nodes", ino, { ...node, size: Math.max(node.size, at + bytes.length), time: Date.now() });
  }

  async function read(tx, ino, into, at) {
    const node = await tx.get("nodes", ino), end = Math.min(node.size, at + into.length);
    for (let p = at; p < end;) {
      const i = Math.floor(p / piece), from = p % piece, n = Math.min(piece - from, end - p);
      const have = (await tx.get("pieces", [ino, i]) || new Uint8Array(0)).subarray(from, from + n);
      into.set(have, p - at);
      into.fill(0, p - at + have.length, p - at + n);
      p += n;
    }
    return Math.max(0, end - at);
  }

  // ---- what several pages share

  // alone tells whether no other page stands on this floor; undefined where the browser does not tell.
  const presence = "propsoff-page";
  async function alone() {
    if (!navigator.locks) return undefined;
    return (await navigator.locks.query()).held.filter((l) => l.name === presence).length <= 1;
  }

  // sweep empties what has no name any more. Only pages that were there when the name went may have it open.
  async function sweep() {
    const only = await alone();
    await place(true, async (tx) => {
      for (const ino of await tx.keys("gone")) {
        const old = Date.now() - await tx.get("gone", ino) > 86400000;
        if (opened(ino) || !(only || only === undefined && old)) continue;
        await empty(tx, ino);
        await tx.drop("gone", ino);
      }
    }).catch(() => {}); // another time
  }

  // take asks for the lock of a file: what gives it back, or nothing where somebody has it. It goes with the page.
  function take(ino) {
    if (!navigator.locks) return lease(ino);
    return new Promise((done, failed) => {
      navigator.locks.request("propsoff-floor:" + ino, { ifAvailable: true }, (lock) => {
        if (!lock) return done(null);
        return new Promise((back) => done(back));
      }).catch((e) => failed(codeOf(e)));
    });
  }

  // lease is take for browsers that give no locks to a page of an insecure address: a row that is renewed as long as the page lives.
  const leaseFor = 15000, me = String(Math.random());
  let leases = 0;
  async function lease(ino) {
    const mine = me + ":" + ++leases;
    const hold = (first) => transact(true, async (tx) => {
      const has = await tx.get("leases", ino);
      if (has && has.of !== mine && has.until > Date.now() || !first && has?.of !== mine) return false;
      await tx.put("leases", ino, { of: mine, until: Date.now() + leaseFor });
      return true;
    });
    if (!await hold(true)) return null;
    const again = setInterval(() => hold(false).catch(() => {}), leaseFor / 5);
    return () => {
      clearInterval(again);
      return transact(true, async (tx) => {
        if ((await tx.get("leases", ino))?.of === mine) await tx.drop("leases", ino);
      });
    };
  }

  // ---- the interface

  const flag = { O_RDONLY: 0, O_WRONLY: 1, O_RDWR: 2, O_CREAT: 64, O_EXCL: 128, O_TRUNC: 512, O_APPEND: 1024, O_DIRECTORY: 65536 };
  const open = new Map(); // by number: {ino, flags, at, back}
  let next = 3;

  const file = (fd) => open.get(fd) || (() => { throw wrong("EBADF"); })();
  const kinds = { file: 0o100000, folder: 0o040000, link: 0o120000 };
  const told = (ino, n) => ({
    dev: 1, ino, mode: kinds[n.kind] | n.mode, nlink: n.links, uid: 0, gid: 0, rdev: 0, size: n.kind === "link" ? n.target.length : n.size, blksize: piece,
    blocks: Math.ceil(n.size / 512), atimeMs: n.time, mtimeMs: n.time, ctimeMs: n.time, isDirectory: () => n.kind === "folder",
  });

  // Lines that the program prints go to the console, whole.
  const lines = { 1: "", 2: "" };
  let complaints = [];
  function print(fd, bytes) {
    const all = (lines[fd] + new TextDecoder().decode(bytes)).split("\n");
    lines[fd] = all.pop();
    for (const line of all) (fd === 2 ? console.error : console.log)(line);
    if (fd === 2) complaints = [...complaints, ...all].slice(-8);
    return bytes.length;
  }

  const node = (change) => async (path, ...args) => transact(true, async (tx) => {
    const at = await there(tx, path);
    await change(tx, at.ino, at.node, ...args);
  });
  const chmod = (tx, ino, n, mode) => tx.put("nodes", ino, { ...n, mode: mode & 0o777 });
  const stat = (follow) => (path) => transact(false, async (tx) => {
    const at = await there(tx, path, follow);
    return told(at.ino, at.node);
  });
  const ofFile = (writes, work) => async (fd, ...args) => {
    const f = file(fd);
    return transact(writes, async (tx) => work(tx, f.ino, await tx.get("nodes", f.ino), ...args));
  };

  const operations = {
    open: async (path, flags, mode) => {
      const writes = (flags & (flag.O_WRONLY | flag.O_RDWR)) !== 0, makes = (flags & flag.O_CREAT) !== 0;
      const ino = await transact(makes || (flags & flag.O_TRUNC) !== 0, async (tx) => {
        const only = makes && (flags & flag.O_EXCL) !== 0;
        let at = await find(tx, path, !only);
        if (at.ino === undefined) {
          if (!makes) throw wrong("ENOENT");
          return (await make(tx, at, { kind: "file", mode: mode & 0o777 & ~0o022 })).ino;
        }
        if (only) throw wrong("EEXIST");
        if (at.node.kind === "folder" ? writes || makes : flags & flag.O_DIRECTORY) throw wrong(at.node.kind === "folder" ? "EISDIR" : "ENOTDIR");
        if (writes) may(at.node, writing);
        if (!(flags & flag.O_WRONLY)) may(at.node, reading);
        if (flags & flag.O_TRUNC && writes) await cut(tx, at.ino, at.node, 0);
        return at.ino;
      });
      open.set(next, { ino, flags, at: 0 });
      return next++;
    },
    close: async (fd) => {
      const f = file(fd);
      open.delete(fd);
      if (f.back) await f.back();
      if (await transact(false, (tx) => tx.get("gone", f.ino))) await sweep();
    },
    read: async (fd, into, offset, length, position) => {
      if (fd === 0) return 0;
      const f = file(fd), at = position ?? f.at;
      if (f.flags & flag.O_WRONLY) throw wrong("EBADF");
      const n = await transact(false, async (tx) => {
        if ((await tx.get("nodes", f.ino)).kind === "folder") throw wrong("EISDIR");
        return read(tx, f.ino, into.subarray(offset, offset + length), at);
      });
      if (position == null) f.at = at + n;
      return n;
    },
    write: async (fd, bytes, offset, length, position) => {
      bytes = bytes.subarray(offset, offset + length);
      if (fd === 1 || fd === 2) return print(fd, bytes);
      const f = file(fd);
      if (!(f.flags & (flag.O_WRONLY | flag.O_RDWR))) throw wrong("EBADF");
      const at = await transact(true, async (tx) => {
        const from = f.flags & flag.O_APPEND ? (await tx.get("nodes", f.ino)).size : position ?? f.at;
        await write(tx, f.ino, bytes, from);
        return from;
      });
      if (position == null) f.at = at + bytes.length;
      return bytes.length;
    },
    fsync: async (fd) => { // what was written before lasts with it: it stands in the same log of the database
      const f = file(fd);
      await transact(true, async (tx) => tx.put("nodes", f.ino, await tx.get("nodes", f.ino)), true);
    },
    fstat: async (fd) => fd < 3 ? told(0, { kind: "file", mode: 0o666, size: 0, links: 1, time: 0 }) : ofFile(false, async (tx, ino, n) => told(ino, n))(fd),
    ftruncate: ofFile(true, cut),
    fchmod: ofFile(true, chmod),
    stat: stat(true),
    lstat: stat(false),
    chmod: node(chmod),
    truncate: node(async (tx, ino, n, size) => { may(n, writing); await cut(tx, ino, n, size); }),
    utimes: node((tx, ino, n, _, time) => tx.put("nodes", ino, { ...n, time: Math.round(time * 1000) })),
    chown: async () => {}, fchown: async () => {}, lchown: async () => {},
    mkdir: (path, mode) => transact(true, async (tx) => {
      const at = await find(tx, path.replace(/\/+$/, "") || "/", false);
      if (at.ino !== undefined) throw wrong("EEXIST");
      await make(tx, at, { kind: "folder", mode: mode & 0o777 & ~0o022 });
    }),
    readdir: (path) => transact(false, async (tx) => {
      const at = await there(tx, path);
      if (at.node.kind !== "folder") throw wrong("ENOTDIR");
      may(at.node, reading);
      return (await tx.keysUnder("names", at.ino)).map((k) => k[1]);
    }),
    // A full browser gives no room to note what is to be emptied later: there it is emptied at once, which writes nothing.
    unlink: (path) => {
      const go = (only) => transact(true, async (tx) => {
        const at = await there(tx, path, false);
        if (at.node.kind === "folder") throw wrong("EISDIR");
        may(at.in, writing);
        await part(tx, at, only);
      });
      return go(false).catch(async (e) => {
        if (e.code !== "ENOSPC" || !await alone()) throw e;
        return go(true);
      });
    },
    rmdir: (path) => transact(true, async (tx) => {
      const at = await there(tx, path, false);
      if (at.node.kind !== "folder") throw wrong("ENOTDIR");
      if (at.ino === root) throw wrong("EBUSY");
      if ((await tx.keysUnder("names", at.ino)).length) throw wrong("ENOTEMPTY");
      may(at.in, writing);
      await part(tx, at);
    }),
    rename: (from, to) => transact(true, async (tx) => {
      const a = await there(tx, from, false), b = await find(tx, to, false);
      if (a.ino === b.ino) return;
      may(a.in, writing);
      may(b.in, writing);
      if ((tidy(to) + "/").startsWith(tidy(from) + "/")) throw wrong("EINVAL");
      if (b.ino !== undefined) {
        if (b.node.kind === "folder" && a.node.kind !== "folder") throw wrong("EISDIR");
        if (b.node.kind !== "folder" && a.node.kind === "folder") throw wrong("ENOTDIR");
        if ((await tx.keysUnder("names", b.ino)).length) throw wrong("ENOTEMPTY");
        await part(tx, b);
      }
      await tx.drop("names", [a.folder, a.name]);
      await tx.put("names", [b.folder, b.name], a.ino);
    }, true),
    link: (from, to) => transact(true, async (tx) => {
      const a = await there(tx, from, false), b = await find(tx, to, false);
      if (a.node.kind === "folder") throw wrong("EPERM");
      if (b.ino !== undefined) throw wrong("EEXIST");
      may(b.in, writing);
      await tx.put("nodes", a.ino, { ...a.node, links: a.node.links + 1 });
      await tx.put("names", [b.folder, b.name], a.ino);
    }, true),
    symlink: (target, path) => transact(true, async (tx) => {
      const at = await find(tx, path, false);
      if (at.ino !== undefined) throw wrong("EEXIST");
      await make(tx, at, { kind: "link", mode: 0o777, target });
    }),
    readlink: (path) => transact(false, async (tx) => {
      const at = await there(tx, path, false);
      if (at.node.kind !== "link") throw wrong("EINVAL");
      return at.node.target;
    }),
    // Locks, as flock(2): of an open file, for as long as it is open. flock answers whether it was had.
    flock: async (fd) => {
      const f = file(fd);
      if (!f.back) f.back = await take(f.ino);
      return !!f.back;
    },
    funlock: async (fd) => {
      const f = file(fd), back = f.back;
      f.back = null;
      if (back) await back();
    },
  };

  globalThis.fs = { constants: flag, writeSync: print };
  for (const [name, operation] of Object.entries(operations)) {
    globalThis.fs[name] = (...args) => {
      const back = args.pop();
      Promise.resolve().then(() => operation(...args)).then((v) => back(null, v), (e) => back(codeOf(e)));
    };
  }
  globalThis.path = { resolve: tidy };
  globalThis.process = {
    getuid: () => 1, getgid: () => 1, geteuid: () => 1, getegid: () => 1, getgroups: () => [1], pid: 1, ppid: 0, umask: () => 0o022,
    cwd: () => here, chdir: (path) => { here = tidy(path); },
  };

  // ---- the beginning

  const folders = ["/home", "/home/.config", "/home/.cache", "/home/.local", "/home/.local/share", "/tmp"];

  async function furnish() {
    await transact(true, async (tx) => {
      if (!await tx.get("nodes", root)) await tx.put("nodes", root, { kind: "folder", mode: 0o755, size: 0, time: Date.now(), links: 1 });
      for (const path of folders) {
        const at = await find(tx, path);
        if (at.ino === undefined) await make(tx, at, { kind: "folder", mode: 0o755 });
      }
    }, true);
  }

  async function begin() {
    let why = "";
    try {
      place = inDatabase(await database());
      await furnish();
    } catch (e) {
      why = String(e && (e.message || e.name) || e);
      place = inMemory();
      await furnish();
    }
    if (navigator.locks) navigator.locks.request(presence, { mode: "shared" }, () => new Promise(() => {})).catch(() => {});
    await sweep();
    return { keeps: !why, why };
  }

  globalThis.propsoffFloor = {
    begun: begin(),
    // complaint is what the program said last of what went wrong.
    complaint: () => complaints.join("\n"),
    // environment is what the program finds its folders by.
    environment: { HOME: "/home", XDG_CONFIG_HOME: "/home/.config", XDG_CACHE_HOME: "/home/.cache", XDG_DATA_HOME: "/home/.local/share", TMPDIR: "/tmp", PWD: "/home" },
  };
})();
