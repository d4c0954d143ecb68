/* Says in words what this browser lacks. Kept in the oldest form of the language, because it must
   run where the rest cannot. */
(function () {
  var needed = [
    ["pointer events", typeof window.PointerEvent === "function"],
    ["frames for animation", typeof window.requestAnimationFrame === "function"],
    ["arrays of numbers", typeof window.Float64Array === "function"],
    ["reading of addresses", typeof window.URLSearchParams === "function"],
    ["files from a page", typeof window.Blob === "function" && !!window.URL],
    ["drawing in SVG", !!document.createElementNS &&
      !!document.createElementNS("http://www.w3.org/2000/svg", "svg").createSVGRect],
    ["layout in grids", !!(window.CSS && window.CSS.supports && window.CSS.supports("display", "grid"))]
  ];
  var missing = [];
  for (var i = 0; i < needed.length; i += 1) {
    if (!needed[i][1]) { missing.push(needed[i][0]); }
  }
  function say(words) {
    var place = document.getElementById("lacking");
    if (place.hidden) {
      place.textContent = words;
      place.hidden = false;
    }
  }
  if (missing.length) {
    say("This browser lacks what the page needs: " + missing.join(", ") +
      ". Please open the file in a current browser.");
  }
  window.addEventListener("error", function (event) {
    /* a notice of some browsers, not a fault: a size was measured once more in the next frame */
    if (String(event.message).indexOf("ResizeObserver") === 0) { return; }
    say(window.pageStarted
      ? "The page met a fault of its own and may show wrong numbers; please load it again. (" +
        event.message + ")"
      : "This browser cannot read the page's script. Please open the file in a current browser.");
  });
}());
