(() => {
  const box = document.getElementById("search");
  box.innerHTML = '<label for="q">Find</label> <input id="q" type="search" autocomplete="off" spellcheck="false"> <span id="found" role="status"></span>';
  const field = document.getElementById("q"), found = document.getElementById("found");
  const items = [...document.querySelectorAll(".index li")].map(e => [e, (e.textContent + " " + e.dataset.words).toLowerCase()]);
  const narrow = () => {
    const words = field.value.toLowerCase().replaceAll("_", " ").split(/\s+/).filter(Boolean);
    let count = 0;
    for (const [e, text] of items) {
      e.hidden = !words.every(w => text.includes(w));
      if (!e.hidden) count++;
    }
    for (const c of document.querySelectorAll(".chapter")) c.hidden = !c.querySelector("li:not([hidden])");
    found.textContent = words.length ? count + " of " + items.length : "";
  };
  field.addEventListener("input", narrow);
  narrow();
})();
