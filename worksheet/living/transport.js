// How a page that lives is worked: by the evaluator that it carries, in a worker. It
// starts at the first sign of a reader's hand.
(() => {
  // What the page carries stands in comments, each behind its word.
  function carried(word) {
    const all = document.createTreeWalker(document.body, NodeFilter.SHOW_COMMENT);
    while (all.nextNode()) {
      const text = all.currentNode.data.trim();
      if (text.startsWith(word + ": ")) return text.slice(word.length + 2);
    }
    return "";
  }

  let worker = null, prepared = null, started = null, count = 0;
  const changed = {}; // what was saved since, by its path: a worker that starts again begins from it
  const waiting = new Map();

  // prepare unpacks and compiles the evaluator; start has it work the page as it stands.
  function prepare() { return prepared ||= step("prepare", hire); }
  function start() { return started ||= step("start", () => prepare().then(() => ({carried: carried("carried"), changed}))); }
  async function step(verb, what) {
    try {
      await send(verb, await what());
    } catch (e) {
      end(e.message);
      throw e;
    }
  }
  function hire() {
    const address = URL.createObjectURL(new Blob([program], {type: "text/javascript"}));
    worker = new Worker(address);
    URL.revokeObjectURL(address);
    worker.onmessage = ({data}) => {
      if (data.over) return end("What works this page has stopped. Try again.");
      const one = waiting.get(data.number);
      if ("glance" in data) return one?.glance?.(data.glance);
      waiting.delete(data.number);
      if (!one) return;
      if (!data.problem) return one.done(data.answer);
      const asked = one.verb === "work" || one.verb === "keep";
      one.fail(new Error((asked ? "" : "What works this page did not start: ") + data.problem));
    };
    worker.onerror = e => { e.preventDefault(); end("What works this page did not start: " + (e.message || "this browser refuses it.")); };
    return {evaluator: carried("evaluator")};
  }
  function end(why) {
    worker?.terminate();
    worker = prepared = started = null;
    for (const one of waiting.values()) one.fail(new Error(why));
    waiting.clear();
  }
  function send(verb, what, glance) {
    return new Promise((done, fail) => { waiting.set(++count, {verb, done, fail, glance}); worker.postMessage({number: count, verb, what}); });
  }

  // An answer that does not come is given up: nothing else can be asked meanwhile.
  const patience = () => +document.documentElement.dataset.patience || 30000; // a test has less
  async function ask(verb, what, glance) {
    let told = false;
    const slow = setTimeout(() => { told = true; hands?.notice("Working …"); }, 500);
    const late = setTimeout(() => end("That took too long and was given up, so what is shown is not what you try. Try a smaller change."), patience());
    try {
      await start();
      return await send(verb, what(), glance);
    } finally {
      clearTimeout(slow);
      clearTimeout(late);
      if (told) hands.notice("");
    }
  }

  function put({name, text}) {
    const a = document.createElement("a");
    a.href = URL.createObjectURL(new Blob([text], {type: name.endsWith(".csv") ? "text/csv" : "text/markdown"}));
    a.download = name;
    a.click();
    setTimeout(() => URL.revokeObjectURL(a.href), 10000);
  }

  // Several files are offered one by one: a browser may refuse more than one at a time.
  const saved = document.createElement("aside");
  saved.id = "page-saved";
  saved.setAttribute("aria-label", "Changed files");
  function offer(files) {
    saved.remove();
    if (files.length < 2) { files.forEach(put); return; }
    const add = (to, name, text, press) => {
      const e = document.createElement(name);
      e.textContent = text;
      if (press) { e.type = "button"; e.onclick = () => press(e); }
      to.append(e);
      return e;
    };
    saved.replaceChildren();
    add(saved, "p", files.length + " files were changed. Save each, and put it where the old one lies.");
    const list = add(saved, "ul", "");
    for (const f of files) add(add(list, "li", ""), "button", "Save " + f.name, b => { put(f); b.textContent = f.name + " was handed to the browser"; });
    add(saved, "button", "Close", () => saved.remove());
    document.body.append(saved);
    setTimeout(() => saved.querySelector("button").focus(), 0);
  }
  const until = "This page shows it until it is opened again.";
  const kept = files => files.length === 1 ? files[0].name + ", with what you tried in it, was handed to the browser to save. " + until : until;

  let hands = null;
  open({
    ready: h => { hands = h; },
    keeps: "Save what was changed",
    work: (since, changes, glance) => ask("work", () => ({since, changes: changes()}), glance),
    overtake: () => worker?.postMessage({verb: "overtake"}),
    async keep(file, changes) {
      const {files = [], answer} = await ask("keep", () => ({file, changes}));
      for (const f of files) changed[f.path] = f.text;
      if (files.length) { offer(files); answer.kept = kept(files); }
      return answer;
    },
  });

  // All this takes seconds, so it begins at the first sign of a hand; but a finger, which
  // mostly scrolls, on what mostly runs from a battery, has it prepared only, until it comes
  // near something that can be tried.
  const hand = e => { (e.pointerType === "touch" ? prepare() : start()).catch(() => {}); };
  for (const sign of ["pointermove", "pointerdown", "keydown", "wheel"]) document.addEventListener(sign, hand, {passive: true, once: true});
  const near = e => { if (e.target.closest?.(".knob, .mark, .opener")) start().catch(() => {}); };
  for (const touch of ["pointerover", "pointerdown", "focusin"]) document.addEventListener(touch, near, {passive: true});
})();
