// Draws the figures that a page carries as JSON, in the site's own colours. Without it the table beneath says the same.
(function () {
  "use strict";

  const token = (name) => getComputedStyle(document.documentElement).getPropertyValue("--" + name).trim();

  function faded(colour) {
    const [r, g, b] = [1, 3, 5].map((at) => parseInt(colour.slice(at, at + 2), 16));
    return "rgba(" + r + "," + g + "," + b + ",0.2)";
  }

  function coloured(figure) {
    const [ink, soft, line, act] = ["ink", "soft", "line", "act"].map(token);
    const data = figure.data.map((trace) => {
      const colour = trace.meta === "act" || trace.meta === "band" ? act : ink;
      return Object.assign({}, trace, {
        line: Object.assign({ color: colour }, trace.line),
        marker: Object.assign({ color: colour }, trace.marker),
        fillcolor: faded(act),
      });
    });
    const layout = Object.assign({}, figure.layout, {
      paper_bgcolor: "rgba(0,0,0,0)",
      plot_bgcolor: "rgba(0,0,0,0)",
      font: { color: soft, family: getComputedStyle(document.body).fontFamily, size: 14 },
      autosize: true,
    });
    for (const name of Object.keys(layout).filter((key) => /^[xy]axis/.test(key))) {
      layout[name] = Object.assign({ linecolor: ink, gridcolor: line, griddash: "dot", tickcolor: ink, zeroline: false, showline: true }, layout[name]);
    }
    return [data, layout];
  }

  function draw(box) {
    const figure = JSON.parse(document.getElementById(box.dataset.figure).textContent);
    // A still picture: nothing on a phone to pinch by mistake while scrolling.
    const show = () => window.Plotly.react(box, ...coloured(figure), { staticPlot: true, responsive: true });
    show();
    new MutationObserver(show).observe(document.documentElement, { attributeFilter: ["data-mode"] });
    window.matchMedia("(prefers-color-scheme: dark)").addEventListener("change", show);
  }

  if (window.Plotly) document.querySelectorAll("[data-figure]").forEach(draw);
})();
