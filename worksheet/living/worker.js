// What runs in the worker of a page that lives. It is told to prepare, with the evaluator,
// then to start, with what the page carries, and then asked. Every message is answered
// under its number; what is tried is answered at a glance first, and then whole.
"use strict";
const digits = "!#$%()*+,./0123456789:;=?@ABCDEFGHIJKLMNOPQRSTUVWXYZ[]^_`abcdefghijklmnopqrstuvwxyz{|";

// bytesOf undoes the writing of four bytes as five characters.
function bytesOf(text) {
  const value = new Uint8Array(128), out = new Uint8Array(text.length / 5 * 4);
  for (let i = 0; i < 85; i++) value[digits.charCodeAt(i)] = i;
  for (let i = 0, at = 0; i < text.length; i += 5) {
    let n = 0;
    for (let k = 0; k < 5; k++) n = n * 85 + value[text.charCodeAt(i + k)];
    out[at++] = n >>> 24; out[at++] = n >>> 16; out[at++] = n >>> 8; out[at++] = n;
  }
  return out;
}

async function sources(base64) {
  const packed = Uint8Array.from(atob(base64), c => c.charCodeAt(0));
  return new Response(new Blob([packed]).stream().pipeThrough(new DecompressionStream("gzip"))).text();
}

let module;
const verbs = {prepare, start, work: whole, keep: what => asked(keep, what)};

// prepare compiles the evaluator while it is unpacked.
async function prepare({evaluator}) {
  const unpacked = new self["xz-decompress"].XzReadableStream(new Blob([bytesOf(evaluator)]).stream());
  if (!self.WebAssembly) throw new Error("this browser has no WebAssembly, or its settings forbid it.");
  try {
    module = await WebAssembly.compileStreaming(new Response(unpacked, {headers: {"Content-Type": "application/wasm"}}));
  } catch {
    throw new Error("this page was damaged on its way; get it anew.");
  }
}

async function start({carried, changed}) {
  const json = sources(carried), go = new Go();
  go.run(await WebAssembly.instantiate(module, go.importObject)).then(() => postMessage({over: true}));
  const problem = open(await json, JSON.stringify(changed));
  if (problem) throw new Error(problem);
  beginning = setTimeout(begin, 400, ""); // what is asked at once comes before that
}

// An answer that is overtaken by another question is left out, but for one in a while.
let beginning = 0, overtaken = false, leavingOut = 0;
const longest = 1000; // ms
async function whole(what, number) {
  clearTimeout(beginning);
  overtaken = false;
  if (what.changes.length) {
    postMessage({number, glance: asked(glance, what)});
    await new Promise(next => setTimeout(next));
    if (overtaken && Date.now() - (leavingOut ||= Date.now()) < longest) return null;
  }
  leavingOut = 0;
  return asked(work, what);
}

function asked(evaluator, what) {
  const [answer, problem] = evaluator(JSON.stringify(what));
  if (problem) throw new Error(problem);
  return JSON.parse(answer);
}

onmessage = async ({data: {number, verb, what}}) => {
  if (verb === "overtake") { overtaken = true; return; }
  try {
    postMessage({number, answer: await verbs[verb](what, number)});
  } catch (e) {
    postMessage({number, problem: e.message || String(e)});
  }
};
