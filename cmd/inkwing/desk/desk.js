// How a page of the desk asks and hears: questions by fetch, and one stream of what is
// saved for all tabs of a browser. The tab that holds the lock has the stream and
// passes on what comes; when it closes, the next one takes over and asks once.
(() => {
  const [, key, kind, ...rest] = location.pathname.split("/");
  const base = "/" + key + "/", name = kind === "page" ? rest.join("/") : "";
  const page = rest.map(decodeURIComponent).join("/");
  const gone = new Error("The desk does not answer. Is it still running?");

  async function asked(path, options) {
    let got;
    try { got = await fetch(base + path, options); } catch { throw gone; }
    let answer;
    try { answer = await got.json(); } catch { throw new Error(got.status === 404 ? "This page is no longer there." : "The desk refused that (" + got.status + ")."); }
    if (answer.sorry) throw new Error(answer.sorry);
    return answer;
  }
  const post = (verb, what) => asked(verb + "/" + name, {method: "POST", headers: {"Content-Type": "application/json"}, body: JSON.stringify(what)});

  let hands;
  const acts = document.getElementById("desk-acts");
  const button = (text, press) => {
    const b = document.createElement("button");
    b.type = "button";
    b.textContent = text;
    b.onclick = async () => {
      b.disabled = true;
      try { await press(); } catch (e) { hands.notice(e.message); }
      b.disabled = false;
    };
    acts.append(b);
    return b;
  };
  const act = verb => async () => {
    const answer = await post(verb, {since: hands.state().stamp, file: hands.state().file, changes: []});
    hands.show(answer);
    heard(answer);
    if (answer.says) hands.notice(answer.says);
  };
  let undo, run;
  if (acts) {
    undo = button("Take back", act("undo"));
    undo.hidden = true;
    run = button("Write results into the file", act("run"));
  }
  function heard(answer) {
    if (!undo) return answer;
    undo.hidden = !answer.undo;
    undo.textContent = "Take back: " + answer.undo;
    undo.title = answer.undo || "";
    return answer;
  }

  const transport = {
    work: async (since, trying) => {
      const changes = trying();
      return heard(changes.length ? await post("try", {since, changes}) : await asked("answer/" + name + "?since=" + encodeURIComponent(since)));
    },
    ready: h => { hands = h; },
    follow(tell) {
      const hear = e => { if (e.page === page) tell(e.since, e.answer, e.moved, e.count); };
      const others = new BroadcastChannel(base);
      const lost = () => { document.body.classList.add("cut-off"); hands.notice(gone.message); };
      others.onmessage = m => m.data === "ask" ? tell() : m.data === "lost" ? lost() : hear(m.data);
      setTimeout(tell, 0); // something may have been saved while this page came
      navigator.locks.request("stream " + base, () => new Promise(() => {
        const stream = new EventSource(base + "events");
        stream.onopen = () => {
          document.documentElement.dataset.stream = "here";
          others.postMessage("ask"); // nobody heard anything for a while
          tell();
        };
        stream.onmessage = m => {
          const e = JSON.parse(m.data);
          others.postMessage(e);
          hear(e);
        };
        stream.onerror = () => { others.postMessage("lost"); lost(); };
      }));
    },
  };
  if (acts) transport.keep = async (file, changes) => heard(await post("keep", {since: hands.state().stamp, file, changes}));
  open(transport);
})();
