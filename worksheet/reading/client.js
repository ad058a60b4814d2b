"use strict";
// What a page does for its reader: values that can be tried, sections that are
// swapped, and what came out otherwise. A transport says how the page is worked:
//
//   work(since, changes, glance)
//                         a promise of the answer for what is tried, null for one that
//                         was overtaken; calls changes() for that as late as it can,
//                         and may call glance(values), null for none, before it answers
//   overtake()            says that another question waits; may be absent
//   keep(file, changes)   a promise of an answer; absent where nothing can be kept
//   follow(tell)          calls tell(since, answer) when the page was saved, or
//                         tell() where the page had better ask; may be absent. Before an
//                         answer it may call tell(since, null, values, count): the first of as many that moved by it
//   keeps, kept           what the button of keep says, and what is said behind it,
//                         if the answer says nothing of it
//
// What is tried outlives a reload, in the tab where it is tried.
function open(transport) {
  const $ = (name, attributes = {}, ...inside) => {
    const e = document.createElement(name);
    for (const [key, value] of Object.entries(attributes)) key in e && key !== "list" ? e[key] = value : e.setAttribute(key, value);
    e.append(...inside);
    return e;
  };
  const main = document.querySelector("main");
  let state = JSON.parse(document.getElementById("page-answer").textContent);
  let inputs = new Map();
  const rows = new Map(); // what stands in the tray, by name
  const minus = text => text.replace(/(^|[ (])-(?=[0-9.])/g, "$1−");
  const whole = value => value.length > 30 ? value : value.replaceAll(" ", "\u00a0"); // on one line
  const words = name => name.replaceAll("_", " ");

  // The tray.
  const says = $("p", {className: "says"});
  says.setAttribute("role", "status");
  const list = $("ul", {className: "tried"}), found = $("div", {className: "found-out"});
  const keep = $("button", {type: "button", className: "main", textContent: transport.keeps || "Keep in the file", onclick: keepAll});
  const back = $("button", {type: "button", textContent: "Put all back", onclick: () => { for (const r of [...rows.values()]) r.drop(); ask(); focusKnob(last); }});
  // Whatever is within reach and has no place on the page, such as a value of another one.
  const any = $("select", {className: "any", onchange: () => { const name = any.value; any.value = ""; choose(name); }});
  any.setAttribute("aria-label", "Try another value as well");
  function offer() {
    any.replaceChildren($("option", {value: "", textContent: "another value …"}), ...[...inputs.values()].filter(x => !rows.has(x.name)).map(x => $("option", {value: x.name, textContent: words(x.name) + " = " + x.text})));
  }
  any.addEventListener("focus", offer);
  any.addEventListener("pointerdown", offer);
  const tray = $("aside", {id: "page-tray", hidden: true}, $("h2", {textContent: "Try other values"}), list, says, $("div", {className: "acts"}, ...(transport.keep ? [keep] : []), back, any), found);
  tray.setAttribute("aria-label", "Values that you try");
  document.body.append(tray);
  // By keys alone the tray opens here, too: a page may have no value in reach but such as
  // stand inside of formulas.
  const opener = $("button", {type: "button", className: "opener", textContent: "Try other values", onclick: () => { opened(); any.focus(); }});
  main.before($("aside", {}, opener));
  opener.parentElement.setAttribute("aria-label", "Values to try");
  any.addEventListener("keydown", e => {
    if (e.key !== "Escape" || rows.size > 0) return;
    closed();
    opener.focus();
    e.preventDefault();
  });
  const opened = () => { tray.hidden = false; offer(); document.body.classList.add("trying"); };
  const closed = () => { tray.hidden = rows.size === 0; document.body.classList.toggle("trying", rows.size > 0); };
  let last = "";

  function changes() {
    return [...rows.values()].filter(r => r.text() !== r.saved()).map(r => ({name: r.name, text: r.text(), was: r.saved()}));
  }

  // A row of the tray: a field with its unit, arrows, and a slider.
  function row(name) {
    const input = inputs.get(name), label = words(name);
    const isNumber = !!input.number;
    let places = input.places || 0, step = input.step || 1;
    const field = input.choices
      ? $("select", {}, ...input.choices.map(c => $("option", {value: c, textContent: c, selected: c === input.text})))
      : $("input", {type: "text", value: isNumber ? input.number : input.text, autocomplete: "off", spellcheck: false, inputMode: isNumber ? "decimal" : "text"});
    field.setAttribute("aria-label", label + (isNumber && input.after ? ", in" + input.after : ""));
    const slider = isNumber ? $("input", {type: "range", min: input.low, max: input.high, step: input.step, value: +plain(input.number)}) : null;
    const was = $("span", {className: "was"});
    const close = $("button", {type: "button", className: "close", textContent: "×", title: "Put back"});
    close.setAttribute("aria-label", "Put " + label + " back");
    const arrow = (sign, says) => {
      const b = $("button", {type: "button", className: "arrow", textContent: sign < 0 ? "−" : "+", onclick: () => turn(sign)});
      b.setAttribute("aria-label", label + " " + says);
      return b;
    };
    const value = () => +plain(field.value);
    const turn = count => { set(value() + count * step); changed(); };
    const set = v => { if (Number.isFinite(v)) field.value = v.toFixed(places); };
    const self = {
      name, field,
      saved: () => inputs.get(name)?.text ?? "",
      text() {
        const typed = field.value.trim(), now = inputs.get(name) || input;
        return isNumber && /^[-+]?[0-9_]*\.?[0-9_]*$/.test(typed) ? (now.before || "") + typed + (now.after || "") : typed;
      },
      drop() { rows.delete(name); item.remove(); closed(); },
      // A text that was saved: what the row stands against is another.
      renew() {
        const now = inputs.get(name);
        if (!now) return this.drop();
        const moved = self.before && self.before !== now.text ? "; it was " + self.before + " when you tried this" : "";
        was.textContent = this.text() === now.text ? "" : "in " + (now.file || "the file") + ": " + now.text + moved;
      },
      // A text that was tried before, against another state of the file, maybe.
      put(text, before) {
        const {before: ahead = "", after = ""} = input, inner = text.slice(ahead.length, text.length - after.length);
        if (input.choices && !input.choices.includes(text)) field.append($("option", {value: text, textContent: text}));
        field.value = isNumber && ahead + inner + after === text && /^[-+]?[0-9_]*\.?[0-9_]*$/.test(inner) ? inner : text;
        self.before = before;
        follow();
      },
      wrong(text) { problem.textContent = text || ""; field.setAttribute("aria-invalid", text ? "true" : "false"); },
    };
    const problem = $("p", {className: "problem"});
    function follow() {
      if (slider) {
        const v = value();
        if (Number.isFinite(v)) {
          if (v > +slider.max) slider.max = v;
          if (v < +slider.min) slider.min = v;
          slider.value = v;
          slider.setAttribute("aria-valuetext", self.text());
          field.setAttribute("aria-valuenow", v);
        }
      }
      self.renew();
    }
    function changed() { self.before = ""; keeps = false; follow(); remember(); soon(); }
    field.addEventListener("input", changed);
    field.addEventListener("keydown", e => {
      const turns = {ArrowUp: 1, ArrowDown: -1, PageUp: 10, PageDown: -10}[e.key];
      if (e.key === "Escape") { close.click(); e.preventDefault(); }
      else if (turns && isNumber) { turn(turns); e.preventDefault(); }
    });
    if (isNumber) { field.setAttribute("role", "spinbutton"); field.setAttribute("aria-valuenow", value()); }
    slider?.addEventListener("input", () => { set(+slider.value); changed(); });
    slider?.setAttribute("aria-label", label + " slider");
    close.onclick = () => { self.drop(); ask(); focusKnob(name); };
    const line = $("span", {className: "field"}, ...(isNumber ? [input.before || "", arrow(-1, "less"), field, arrow(1, "more"), $("span", {className: "unit", textContent: (input.after || "").trim()})] : [field]));
    const item = $("li", {}, $("span", {className: "name", textContent: label}), close, line, ...(slider ? [slider] : []), was, problem);
    list.append(item);
    rows.set(name, self);
    return self;
  }
  const plain = text => text.replaceAll("_", "").trim() || "x";

  function choose(name) {
    if (!inputs.has(name)) return;
    last = name;
    const r = rows.get(name) || row(name);
    opened();
    r.field.focus();
    r.field.select?.();
  }
  function focusKnob(name) {
    const knob = document.querySelector('[data-name="' + CSS.escape(name) + '"] > .knob');
    (knob || main).focus({preventScroll: true});
  }

  // What can be tried becomes a button; without this script it is text.
  function dress(root) {
    for (const e of root.querySelectorAll("[data-name]")) {
      const name = e.dataset.name;
      if (!inputs.has(name) || e.querySelector(":scope > .knob")) continue;
      if (e.namespaceURI.endsWith("MathML")) { press(e, [name, ...JSON.parse(e.dataset.also || "[]")]); continue; }
      const math = e.querySelector(":scope > math");
      const knob = $("button", {type: "button", className: "knob", onclick: () => choose(name)});
      knob.title = "Try another value";
      if (math) { math.before(knob); knob.append(math); } else { knob.append(...e.childNodes); e.append(knob); }
    }
  }

  // A part of a formula can hold no button, nor be one for those who are read to: it is
  // pressed by a pointer, and by keys chosen from the list of the tray. Where several
  // arguments stand behind one mark, all come into the tray.
  function press(e, names) {
    if (e.classList.contains("mark")) return;
    e.classList.add("mark");
    e.addEventListener("click", () => {
      for (const name of names.slice(1)) if (inputs.has(name) && !rows.has(name)) row(name);
      choose(names[0]);
    });
  }

  // Asking: one question at a time, and only the last of them counts.
  let timer = 0, asking = false, again = false;
  function soon() { timer ||= setTimeout(ask); }
  async function ask() {
    clearTimeout(timer);
    timer = 0;
    remember();
    if (asking) { again = true; transport.overtake?.(); return; }
    asking = true;
    try {
      let trying = false;
      const asked = () => { again = false; const tried = changes(); trying = tried.length > 0; return tried; };
      const answer = await transport.work(state.stamp, asked, glance);
      if (answer) show(answer, trying);
      document.body.classList.remove("cut-off");
    } catch (e) {
      keeps = false;
      document.body.classList.add("cut-off");
      if (glanced(false)) found.replaceChildren(); // of two questions, and of neither whole
      says.textContent = e.message || String(e);
    }
    asking = false;
    next();
  }
  // What waited until the answer came: another question, or to keep what was tried, if it can be.
  let keeps = false;
  function next() {
    if (again) { again = false; ask(); return; }
    if (keeps && !keep.disabled) keepAll();
    keeps = false;
  }

  async function keepAll() {
    const tried = changes();
    if (!tried.length) return;
    if (asking) { keeps = true; return; }
    keep.disabled = asking = true;
    try {
      const answer = await transport.keep(state.file, tried);
      if (!answer.problems?.length) for (const r of [...rows.values()]) r.drop();
      remember();
      show(answer, false);
      const done = answer.kept || transport.kept || "Kept.";
      says.textContent = answer.problems?.length ? answer.problems.map(p => p.summary).join(" ") : done;
      if (!answer.problems?.length) { notice(done); focusKnob(last); }
    } catch (e) {
      says.textContent = e.message || String(e);
    }
    keep.disabled = asking = false;
    next();
  }

  // A word that goes by itself, for what happened when the tray is closed.
  const notices = $("div", {id: "page-notice"});
  notices.setAttribute("role", "status");
  document.body.append(notices);
  let noticed = 0;
  function notice(text, during = 6000, ...more) {
    notices.replaceChildren(text, ...more);
    clearTimeout(noticed);
    noticed = setTimeout(() => { notices.textContent = ""; }, during);
  }

  // What moved by a save is told at a glance, and stays when all of it has come.
  let glimpse = {};
  function glimpsed(since, moved, of) {
    const more = of - moved.length;
    const list = $("ul", {className: "moves"}, ...moved.map(v => moving(v)), ...(more > 0 ? [$("li", {textContent: more + " more"})] : []));
    glimpse = {since, list};
    notice(count(of, "result") + " moved by what was saved.", 10000, list);
  }

  // What stands in the tray is kept for a reload, with what it was tried against. A
  // browser may forbid that: then nothing is.
  const drawer = "tried " + location.pathname;
  function remember() {
    const tried = changes().map(c => ({...c, was: rows.get(c.name).before || c.was}));
    try {
      if (tried.length) sessionStorage.setItem(drawer, JSON.stringify(tried)); else sessionStorage.removeItem(drawer);
    } catch { /* as was said */ }
  }
  function recall() {
    let tried = [];
    try { tried = JSON.parse(sessionStorage.getItem(drawer) || "[]"); } catch { /* as was said */ }
    const gone = [], back = tried.filter(c => (inputs.has(c.name) && inputs.get(c.name).text !== c.text) || (inputs.has(c.name) || gone.push(c.name), false));
    for (const c of back) (rows.get(c.name) || row(c.name)).put(c.text, c.was);
    if (back.length) {
      opened();
      ask();
    }
    const others = back.filter(c => c.was !== inputs.get(c.name).text).length;
    const parts = [];
    if (others) parts.push((others === 1 ? "One value was" : others + " values were") + " changed in the file since you tried another: the tray shows both.");
    if (gone.length) parts.push("No longer here, and not tried again: " + gone.map(words).join(", ") + ".");
    if (parts.length) notice(parts.join(" "), 20000);
  }

  // Showing an answer.
  function show(answer, trying) {
    const place = here(), focus = focused();
    const old = state;
    state = {...answer, sections: null};
    if (answer.inputs) { inputs = new Map(answer.inputs.map(x => [x.name, x])); }
    opener.parentElement.hidden = inputs.size === 0;
    document.title = answer.title;
    const moved = [];
    const ready = new Map();
    const heights = new Map((answer.sections || []).map(s => document.getElementById(s.id)).filter(e => e).map(e => [e.id, heightOf(e)]));
    for (const s of answer.sections || []) {
      const fresh = parsed(s.html), stood = document.getElementById(s.id);
      ready.set(s.id, fresh);
      if (heights.get(s.id)) reserve(fresh, heights.get(s.id));
      if (stood && stood.parentElement === main) { same(stood, fresh); moved.push(...differing(stood, fresh)); stood.replaceWith(fresh); } else moved.push(fresh);
    }
    arrange(answer.order, ready);
    dress(main);
    mark(answer.asMade || []);
    if (answer.inputs) for (const r of [...rows.values()]) r.renew();
    there(place);
    refocus(focus);
    if (old.stamp !== answer.stamp) flash(moved);
    tell(answer, trying);
  }

  function parsed(html) {
    const t = document.createElement("template");
    t.innerHTML = html;
    return t.content.firstElementChild;
  }

  // arrange puts the sections into their order, and takes out those that are gone.
  function arrange(order, ready) {
    const wanted = new Set(order);
    for (const e of [...main.children]) if (!wanted.has(e.id)) e.remove();
    let at = main.firstElementChild;
    for (const id of order) {
      if (at && at.id === id) { at = at.nextElementSibling; continue; }
      const e = [...main.children].find(x => x.id === id) || ready.get(id);
      if (e) main.insertBefore(e, at);
    }
  }

  // mark says at each section that does not follow what is tried of when it is.
  function mark(ids) {
    for (const e of main.querySelectorAll(":scope > .as-made")) if (!ids.includes(e.id)) { e.classList.remove("as-made"); e.querySelector(":scope > .as-made-note").remove(); }
    for (const e of ids.map(id => document.getElementById(id)).filter(e => e && !e.classList.contains("as-made"))) {
      e.classList.add("as-made");
      e.prepend($("p", {className: "as-made-note", textContent: "As of the making of this page: it asks of other journals, which are not here, and does not follow what is tried or saved."}));
    }
  }

  // same leaves open what the reader had opened.
  function same(stood, fresh) {
    const a = stood.querySelectorAll("details"), b = fresh.querySelectorAll("details");
    if (a.length === b.length) a.forEach((d, i) => { b[i].open = d.open; });
  }

  const pieces = ".line, .plain > li, .limit, .caution, .failure, .chart, tr, .prose > p, .remark, .status";
  function differing(stood, fresh) {
    const bare = e => e.textContent + (e.querySelector(".bar")?.outerHTML || "");
    const had = new Set([...stood.querySelectorAll(pieces)].map(bare));
    return [...fresh.querySelectorAll(pieces)].filter(e => !had.has(bare(e)));
  }
  function flash(list) {
    for (const e of list) e.classList.add("fresh");
    setTimeout(() => { for (const e of list) e.classList.remove("fresh"); }, 1600);
  }

  // What is out of view need not be laid out each time that it is worked: until it comes
  // near, its height stands for it. A long page is read so from its beginning.
  const reserve = (section, height) => { section.style.containIntrinsicSize = "auto " + height + "px"; };
  const heightOf = e => { const s = getComputedStyle(e); return e.clientHeight - parseFloat(s.paddingTop) - parseFloat(s.paddingBottom); };
  function asRead() {
    const place = here(), sections = [...main.children];
    document.body.classList.add("as-read", "whole");
    const heights = sections.map(heightOf);
    sections.forEach((s, i) => reserve(s, heights[i]));
    document.body.classList.remove("whole");
    there(place);
  }
  if (!document.body.classList.contains("as-read")) {
    let wait = 0;
    document.fonts.ready.then(asRead);
    addEventListener("resize", () => { clearTimeout(wait); wait = setTimeout(asRead, 200); });
    addEventListener("beforeprint", () => document.body.classList.remove("as-read"));
    addEventListener("afterprint", () => document.body.classList.add("as-read"));
  }

  // The reader's place: what stands at the top of the view stays there.
  function here() {
    for (const s of main.children) {
      const r = s.getBoundingClientRect();
      if (r.bottom <= 0) continue;
      const inner = [...s.querySelectorAll(":scope > *, :scope > ul > li")];
      const i = inner.findIndex(e => e.getBoundingClientRect().bottom > 0);
      return {id: s.id, i, count: inner.length, top: (inner[i] || s).getBoundingClientRect().top, whole: r.top};
    }
  }
  function there(p) {
    const s = p && document.getElementById(p.id);
    if (!s || scrollY === 0) return;
    const inner = [...s.querySelectorAll(":scope > *, :scope > ul > li")];
    const by = inner.length === p.count && inner[p.i] ? inner[p.i].getBoundingClientRect().top - p.top : s.getBoundingClientRect().top - p.whole;
    if (Math.abs(by) > 0.5) scrollBy({top: by, behavior: "instant"});
  }
  function focused() {
    const e = document.activeElement;
    if (!e || !main.contains(e)) return null;
    const section = [...main.children].find(s => s.contains(e));
    const all = section ? [...section.querySelectorAll(tabbed)] : [];
    return section && {id: section.id, i: all.indexOf(e), name: e.parentElement?.dataset.name};
  }
  const tabbed = "a, button, summary, [tabindex]";
  function refocus(f) {
    if (!f || document.activeElement !== document.body) return;
    if (f.name) return focusKnob(f.name);
    document.getElementById(f.id)?.querySelectorAll(tabbed)[f.i]?.focus({preventScroll: true});
  }

  // What moved, the first few at once.
  const count = (n, one, more = one + "s") => n === 1 ? "1 " + one : n + " " + more;
  const moving = (v, at) => $("li", {}, $("span", {className: "name"}, at ? $("a", {href: "#" + v.id, textContent: words(v.name)}) : words(v.name)),
      $("span", {className: "share", textContent: minus(v.share || "")}), $("span", {className: "moved", textContent: minus(whole(v.old) + " → " + whole(v.new))}));
  function moves(moved, opened) {
    const few = Math.min(8, Math.max(4, moved.filter(v => v.asked).length));
    const part = list => $("ul", {className: "moves"}, ...list.map(v => moving(v, document.getElementById(v.id))));
    return [...(moved.length ? [part(moved.slice(0, few))] : []),
      ...(moved.length > few ? [$("details", {open: opened}, $("summary", {textContent: moved.length - few + " more"}), part(moved.slice(few)))] : [])];
  }

  // A glance is how results move before it is known how sure they are. What else was said,
  // of limits above all, is of the state before, and stays dimmed until the answer comes.
  function glance(moved) {
    glanced(true);
    if (!moved) return;
    says.textContent ||= "How sure that is, and what the limits say, follows.";
    finding(() => {
      const opened = !!found.querySelector("details[open]");
      found.querySelectorAll(":scope > .moves, :scope > details").forEach(e => e.remove());
      found.append(...moves(moved, opened));
    });
  }
  // glanced marks what is told as unfinished, or not, and says whether it was.
  function glanced(is) {
    const was = tray.classList.contains("glanced");
    tray.classList.toggle("glanced", is);
    tray.setAttribute("aria-busy", is);
    return was;
  }
  // finding changes what is told, and leaves the focus on what it was on.
  function finding(change) {
    const of = e => e.href || e.localName, on = found.contains(document.activeElement) ? of(document.activeElement) : "";
    change();
    if (on) ([...found.querySelectorAll("a, summary")].find(e => of(e) === on) || rows.get(last)?.field)?.focus({preventScroll: true});
  }

  // What came out otherwise: broken limits first.
  function tell(answer, trying) {
    glanced(false);
    finding(() => told(answer, trying));
  }
  function told(answer, trying) {
    for (const r of rows.values()) r.wrong((answer.problems || []).filter(p => p.name === r.name).map(p => p.summary + " " + (p.hint || "")).join(" "));
    const opened = !!found.querySelector("details[open]");
    found.replaceChildren();
    const broken = answer.broken || [], doubtful = answer.doubtful || [], mended = answer.mended || [], failing = answer.failing || [], moved = answer.changed || [];
    if (!transport.keeps) keep.textContent = new Set(changes().map(c => inputs.get(c.name)?.file)).size > 1 ? "Keep in the files" : "Keep in the file";
    keep.disabled = !trying || (answer.problems || []).length > 0;
    if (!trying) { says.textContent = ""; return; }
    const general = (answer.problems || []).filter(p => !p.name).map(p => p.summary);
    const limit = (word, kind) => l => $("li", {className: kind}, $("b", {textContent: word + " "}), l.id ? $("a", {href: "#" + l.id, textContent: l.text}) : l.text, " ", $("span", {className: "room", textContent: minus(whole(l.value) + " worked, " + whole(l.allowed) + " allowed")}));
    const flips = [...broken.map(limit("broken", "broken")), ...failing.map(p => $("li", {className: "broken"}, $("b", {textContent: "not worked "}), $("code", {textContent: p.text || ""}), " " + p.summary)),
      ...doubtful.map(limit("not surely kept", "doubtful")), ...mended.map(limit("kept again", "mended"))];
    if (flips.length) found.append($("ul", {className: "flips"}, ...flips));
    found.append(...moves(moved, opened));
    const parts = [...general];
    if (broken.length) parts.push(count(broken.length, "limit is", "limits are") + " broken by this.");
    if (failing.length) parts.push(count(failing.length, "line", "lines") + " cannot be worked.");
    if (mended.length) parts.push(count(mended.length, "limit holds", "limits hold") + " again.");
    if (!(answer.problems || []).length) parts.push(moved.length ? count(moved.length, "result", "results") + " changed." : changes().length ? "No result changed." : "");
    says.textContent = parts.join(" ");
  }

  show(state, false);
  recall();
  transport.follow?.((since, answer, moved, of) => {
    const mine = since === state.stamp && !changes().length && !asking;
    if (moved) return mine && glimpsed(since, moved, of);
    const seen = glimpse.since === since ? glimpse.list : null;
    glimpse = {};
    if (answer && mine) {
      const held = state.holds;
      show(answer, false);
      if (answer.file && !answer.problems?.length) saved(held && !answer.holds, seen);
    } else ask();
  });
  function saved(broken, list) {
    if (broken) notice("Saved: not everything holds any more; the top of the page says what.", 10000, ...(list ? [list] : []));
    else if (!list) notice("Saved: what changed is shown.");
  }
  transport.ready?.({ask, show: a => show(a, false), notice, state: () => state});
}
