/* Making elements, telling numbers, and the one polite voice of the page.
   All texts go through text nodes: nothing that a case says can become markup. */

const SVG_SPACE = "http://www.w3.org/2000/svg";
const MINUS = "\u2212";
const NARROW = "\u202f"; // a narrow space at which no line is broken

/* An HTML element; children are elements or texts, nothing and false are left out. */
function el(name, attributes = {}, ...children) {
  return filled(document.createElement(name), attributes, children);
}

/* An SVG element, in the same way. */
function svg(name, attributes = {}, ...children) {
  return filled(document.createElementNS(SVG_SPACE, name), attributes, children);
}

function filled(node, attributes, children) {
  setAttributes(node, attributes);
  node.append(...children.flat().filter((child) => child !== null && child !== undefined && child !== false));
  return node;
}

/* Set attributes; false, null and undefined take one away, true sets it empty. */
function setAttributes(node, attributes) {
  for (const [name, value] of Object.entries(attributes)) {
    if (name === "style" || name.startsWith("on")) throw new Error(`attribute ${name} is not for pages`);
    if (value === false || value === null || value === undefined) node.removeAttribute(name);
    else node.setAttribute(name, value === true ? "" : String(value));
  }
  return node;
}

/* Put children in place of what a node held. */
function refill(node, ...children) {
  node.replaceChildren(...children.flat().filter((child) => child !== null && child !== undefined && child !== false));
  return node;
}

/* Set a text only where it changed: cheap enough for every frame. */
function setText(node, text) {
  if (node.textContent !== text) node.textContent = text;
}

/* A button with words, and what it does. */
function button(words, act, attributes = {}) {
  const node = el("button", { type: "button", ...attributes }, words);
  node.addEventListener("click", act);
  return node;
}

function byId(name) {
  return document.getElementById(name);
}

let freshNumber = 0;
/* A name that no other element of the page has. */
function freshId(stem) {
  freshNumber += 1;
  return `${stem}-${freshNumber}`;
}

/* A number with a true minus, and never a minus before nothing; a dash where there is none. */
function shownNumber(value, decimals, signed = false) {
  if (!Number.isFinite(value)) return "\u2013";
  const size = Math.abs(value).toFixed(decimals);
  if (Number(size) === 0) return size;
  return (value < 0 ? MINUS : signed ? "+" : "") + size;
}

/* A unit as read: the degree sign, nothing for a pure number. */
function shownUnit(unit) {
  return { deg: "\u00b0", 1: "" }[unit] ?? unit.replace("deg/", "\u00b0/").replace("N m", `N${NARROW}m`);
}

/* A number with its unit. */
function withUnit(value, unit, decimals, signed = false) {
  const words = shownUnit(unit);
  const gap = words === "" || words.startsWith("\u00b0") || words === "%" ? "" : "\u00a0";
  return shownNumber(value, decimals, signed) + gap + words;
}

/* Decimals that suit a unit, where nothing else says. */
function decimalsOf(unit) {
  if (unit.includes("kg") || unit.startsWith("body") || unit === "s" || unit === "m/s" || unit === "1") return 2;
  return unit === "N m" || unit === "deg" || unit === "J" || unit === "N m s" ? 1 : 0;
}

/* What says words politely, once, some time [ms] after the last call. */
function liveRegion(node, wait = 500) {
  let timer = 0;
  return (words) => {
    clearTimeout(timer);
    timer = setTimeout(() => {
      node.textContent = typeof words === "function" ? words() : words;
    }, wait);
  };
}

/* What runs `act` at most once a frame, with the latest arguments. */
function oncePerFrame(act) {
  let asked = null;
  return (...values) => {
    if (asked === null) {
      requestAnimationFrame(() => {
        const latest = asked;
        asked = null;
        act(...latest);
      });
    }
    asked = values;
  };
}

/* Whether the reader asked for stillness. */
function wantsStillness() {
  return window.matchMedia("(prefers-reduced-motion: reduce)").matches;
}

/* A summary that opens what it holds; `fill` makes the content when it is seen. */
function unfolding(words, fill, open = false) {
  const inside = el("div");
  const node = el("details", { open }, el("summary", {}, ...[words].flat()), inside);
  const show = () => fill(inside);
  node.addEventListener("toggle", () => node.open && show());
  return { node, refresh: () => node.open && show() };
}

/* Change something for paper; `act` returns what undoes it. */
function onPaper(act) {
  let undo = null;
  window.addEventListener("beforeprint", () => { undo ??= act(); });
  window.addEventListener("afterprint", () => { undo?.(); undo = null; });
}

/* Offer a text as a file to keep. */
function download(name, text, type = "text/plain") {
  const place = URL.createObjectURL(new Blob([text], { type: `${type};charset=utf-8` }));
  const link = el("a", { href: place, download: name });
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(place), 10_000);
}
