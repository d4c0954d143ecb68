/* The state of a page in its own address, so that it can be sent. */

/* fields: {name: [low, high, step?, own?]} of numbers; a value that is not `own` is brought to a multiple of step. read() gives {values, notes}: what the address says, brought
   into range, and in words what was not taken; write(values) follows, a few times a second at most;
   onArrival(values, notes) comes when the reader opens another state of the same page. */
function addressState(fields, onArrival) {
  let timer = 0;
  let written = location.hash;
  const read = () => readAddress(location.hash, fields);
  const put = (values) => {
    written = `#${addressOf(values)}`;
    try {
      history.replaceState(null, "", written);
    } catch {
      location.replace(written); // where a browser does not let a file change its own history
    }
  };
  window.addEventListener("hashchange", () => {
    if (location.hash === written) return;
    written = location.hash;
    const { values, notes } = read();
    onArrival(values, notes);
  });
  return {
    read,
    write: (values) => {
      clearTimeout(timer);
      timer = setTimeout(() => put(values), 250);
    },
    link: (values) => `${location.href.split("#")[0]}#${addressOf(values)}`,
  };
}

/* The state as the part of an address after its hash. */
function addressOf(values) {
  return Object.entries(values)
    .filter(([, value]) => Number.isFinite(value))
    .map(([name, value]) => `${name}=${Number(value.toFixed(6))}`)
    .join("&");
}

/* What an address says about known fields; anything else is passed over, and said. */
function readAddress(hash, fields) {
  const values = {};
  const notes = [];
  for (const [name, text] of new URLSearchParams(hash.replace(/^#/, ""))) {
    const known = Object.hasOwn(fields, name);
    const value = typedNumber(text);
    if (!known) notes.push(`"${name.slice(0, 40)}" is nothing that this page knows; it was left out.`);
    else if (!Number.isFinite(value)) notes.push(`${spaced(name)}: "${text.slice(0, 40)}" is no number; it was left out.`);
    else {
      const [low, high, step = 0, own = NaN] = fields[name];
      values[name] = value === own || step === 0 ? Math.min(Math.max(value, low), high) : onGrid(value, low, high, step);
      if (values[name] !== value) notes.push(`${spaced(name)}: ${shownText(value)} cannot be set; ${shownText(values[name])} is taken.`);
    }
  }
  return { values, notes };
}

const spaced = (name) => name.replaceAll("_", " ");
const shownText = (value) => String(value).replace("-", MINUS);

/* A button that copies the link of `link()`; where a browser does not let it, the link is shown to be
   copied by hand. */
function copyButton(link) {
  const said = el("span", { class: "small", role: "status" });
  const field = el("input", { class: "copy-field absent", readonly: true, "aria-label": "link to this setting" });
  const copy = button("Copy link", async () => {
    try {
      await navigator.clipboard.writeText(link());
      setText(said, "Copied.");
    } catch {
      field.value = link();
      field.classList.remove("absent");
      field.select();
      setText(said, "Copy it from here:");
    }
    setTimeout(() => setText(said, ""), 4000);
  });
  return [copy, said, field];
}
