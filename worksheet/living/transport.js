// How a page that lives is worked: by the evaluator that it carries, in a worker. It
// starts when the reader first comes near something that can be tried.
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

  let worker = null, starting = null, count = 0;
  const waiting = new Map();

  function start() {
    if (starting) return starting;
    const address = URL.createObjectURL(new Blob([program], {type: "text/javascript"}));
    worker = new Worker(address);
    URL.revokeObjectURL(address);
    worker.onmessage = ({data}) => {
      if (data.over) return end("What works this page has stopped. Try again.");
      const one = waiting.get(data.number);
      waiting.delete(data.number);
      if (!one) return;
      if (!data.problem) return one.done(data.answer);
      one.fail(new Error((one.verb === "start" ? "What works this page did not start: " : "") + data.problem));
    };
    worker.onerror = e => { e.preventDefault(); end("What works this page did not start: " + (e.message || "this browser refuses it.")); };
    const [size, evaluator] = carried("evaluator").split(" ");
    starting = send("start", {size: +size, evaluator, carried: carried("carried")});
    starting.catch(e => end(e.message));
    return starting;
  }
  function end(why) {
    worker?.terminate();
    worker = starting = null;
    for (const one of waiting.values()) one.fail(new Error(why));
    waiting.clear();
  }
  function send(verb, what) {
    return new Promise((done, fail) => { waiting.set(++count, {verb, done, fail}); worker.postMessage({number: count, verb, what}); });
  }

  // An answer that does not come is given up: nothing else can be asked meanwhile.
  const patience = 30000;
  async function ask(verb, what) {
    let told = false;
    const slow = setTimeout(() => { told = true; hands?.notice("Working …"); }, 500);
    const late = setTimeout(() => end("That took too long and was given up. Try a smaller change."), patience);
    try {
      await start();
      return await send(verb, what);
    } finally {
      clearTimeout(slow);
      clearTimeout(late);
      if (told) hands.notice("");
    }
  }

  function put(name, text) {
    const a = document.createElement("a");
    a.href = URL.createObjectURL(new Blob([text], {type: "text/markdown"}));
    a.download = name;
    a.click();
    setTimeout(() => URL.revokeObjectURL(a.href), 10000);
  }

  let hands = null;
  open({
    ready: h => { hands = h; },
    keeps: "Save the changed worksheet",
    kept: "The changed worksheet was handed to the browser to save. This page shows it until it is opened again.",
    work: (since, changes) => ask("work", {since, changes}),
    async keep(file, changes) {
      const {name, text, answer} = await ask("keep", {file, changes});
      if (name) put(name, text);
      return answer;
    },
  });

  const near = e => { if (e.target.closest?.(".knob")) start().catch(() => {}); };
  for (const touch of ["pointerover", "pointerdown", "focusin"]) document.addEventListener(touch, near, {passive: true});
})();
