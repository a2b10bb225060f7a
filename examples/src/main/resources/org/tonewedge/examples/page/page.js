"use strict";

// Tables: a press on a heading sorts by that column; empty cells stay last.
document.querySelectorAll("table.sortable").forEach(function (table) {
  const headings = Array.from(table.tHead.rows[0].cells);
  headings.forEach(function (heading, column) {
    heading.querySelector("button").addEventListener("click", function () {
      const descending = heading.getAttribute("aria-sort") === "ascending";
      headings.forEach(function (other) { other.removeAttribute("aria-sort"); });
      heading.setAttribute("aria-sort", descending ? "descending" : "ascending");
      const text = heading.classList.contains("text");
      const rows = Array.from(table.tBodies[0].rows);
      const key = function (row) { return row.cells[column].dataset.value; };
      rows.sort(function (a, b) {
        const x = key(a), y = key(b);
        if (x === "" || y === "") { return (x === "") - (y === ""); }
        const order = text ? x.localeCompare(y, "en", { numeric: true }) : Number(x) - Number(y);
        return descending ? -order : order;
      });
      rows.forEach(function (row) { table.tBodies[0].appendChild(row); });
    });
  });
});

// Figures that wait for their place on the screen: once all else is there they are loaded too, for print.
window.addEventListener("load", function () {
  window.setTimeout(function () {
    document.querySelectorAll("img[loading=lazy]").forEach(function (image) { image.loading = "eager"; });
  }, 500);
});

// Curves: chosen films stand out, the rest is grey; the picture of the page stays for print and without scripts.
document.querySelectorAll(".overlay").forEach(function (overlay) {
  const data = JSON.parse(overlay.querySelector("script").textContent);
  const live = overlay.querySelector(".live");
  const svg = live.querySelector("svg");
  const align = live.querySelector("select");
  const slider = live.querySelector("input[type=range]");
  const place = live.querySelector(".place");
  const said = live.querySelector("output");
  const values = live.querySelector("tbody");
  const boxes = Array.from(live.querySelectorAll("input[type=checkbox]"));
  const MOST = 6, LEFT = 46, TOP = 12, BELOW = 44;
  let WIDTH = 1000, HEIGHT = 560, RIGHT = 210, BOTTOM = BELOW;
  const DASHES = ["8 4", "", "10 3 2 3", "2 3", "14 4", "6 3 2 3 2 3"];
  let frame = null;

  function node(name, attributes, parent, text) {
    const made = document.createElementNS("http://www.w3.org/2000/svg", name);
    Object.keys(attributes).forEach(function (key) { made.setAttribute(key, attributes[key]); });
    if (text !== undefined) { made.textContent = text; }
    parent.appendChild(made);
    return made;
  }
  function number(value, decimals) { return value.toFixed(decimals).replace("-", "\u2212"); }
  function chosen() { return boxes.filter(function (box) { return box.checked; }).map(function (box) { return Number(box.value); }); }
  function shiftX(curve) {
    if (align.value !== "speed-point") { return 0; }
    return curve.m === null ? null : curve.m;
  }
  function shiftY(curve) {
    if (align.value === "exposure") { return 0; }
    return curve.base;
  }
  function points(curve) {
    const x0 = shiftX(curve), y0 = shiftY(curve);
    if (x0 === null || y0 === null) { return []; }
    return curve.d.map(function (d, i) { return [curve.x0 + i * curve.dx - x0, d - y0]; });
  }
  // Density and gradient of a curve at a place of the axis, or nothing outside its readings.
  function at(curve, x) {
    const x0 = shiftX(curve), y0 = shiftY(curve);
    if (x0 === null || y0 === null) { return null; }
    const t = (x + x0 - curve.x0) / curve.dx;
    if (!(t >= 0 && t <= curve.d.length - 1)) { return null; }
    const i = Math.min(Math.floor(t), curve.d.length - 2);
    const rise = curve.d[i + 1] - curve.d[i];
    return { logH: x + x0, gross: curve.d[i] + (t - i) * rise, y: curve.d[i] + (t - i) * rise - y0, gradient: rise / curve.dx };
  }
  function say(curve, found) {
    return curve.name + ": log H " + number(found.logH, 2) + ", density " + number(found.gross, 2) + ", gradient " + number(found.gradient, 2);
  }

  function shortened(text, most) { return text.length > most ? text.slice(0, most - 1) + "\u2026" : text; }

  function draw() {
    svg.replaceChildren();
    // One unit is one pixel of the screen, so that letters keep their size.
    WIDTH = Math.max(300, Math.round(svg.clientWidth));
    HEIGHT = Math.max(300, Math.min(600, Math.round(WIDTH * 0.56)));
    RIGHT = WIDTH < 600 ? 10 : 210;
    // On a narrow screen the names stand below the axis, where no curve is.
    const names = WIDTH < 600 ? 17 * chosen().length + 4 : 0;
    HEIGHT += names;
    BOTTOM = BELOW + names;
    svg.setAttribute("viewBox", "0 0 " + WIDTH + " " + HEIGHT);
    const all = data.curves.map(points);
    const drawn = all.flat();
    if (drawn.length === 0) { return; }
    let left = Infinity, right = -Infinity, low = 0, high = -Infinity;
    drawn.forEach(function (p) { left = Math.min(left, p[0]); right = Math.max(right, p[0]); low = Math.min(low, p[1]); high = Math.max(high, p[1]); });
    left = Math.floor(left * 2) / 2; right = Math.ceil(right * 2) / 2; high = Math.ceil(high * 2 + 0.1) / 2;
    const px = function (x) { return LEFT + (x - left) / (right - left) * (WIDTH - LEFT - RIGHT); };
    const py = function (y) { return HEIGHT - BOTTOM - (y - low) / (high - low) * (HEIGHT - TOP - BOTTOM); };
    frame = { left: left, right: right, px: px, py: py };
    const every = WIDTH < 600 ? 1 : 0.5;
    for (let x = Math.ceil(left / every) * every; x <= right + 1e-9; x += every) {
      node("path", { class: "grid", d: "M" + px(x) + "," + TOP + "V" + (HEIGHT - BOTTOM) }, svg);
      node("text", { x: px(x), y: HEIGHT - BOTTOM + 16, "text-anchor": "middle" }, svg, number(x, 1));
    }
    for (let y = Math.ceil(low * 2) / 2; y <= high + 1e-9; y += 0.5) {
      node("path", { class: "grid", d: "M" + LEFT + "," + py(y) + "H" + (WIDTH - RIGHT) }, svg);
      node("text", { x: LEFT - 6, y: py(y) + 4, "text-anchor": "end" }, svg, number(y, 1));
    }
    node("path", { class: "axis", d: "M" + LEFT + "," + TOP + "V" + (HEIGHT - BOTTOM) + "H" + (WIDTH - RIGHT) }, svg);
    node("text", { x: (LEFT + WIDTH - RIGHT) / 2, y: HEIGHT - names - 8, "text-anchor": "middle" }, svg,
      align.value === "speed-point" ? "log units from the speed point" : "log H (" + data.unit + ")");
    const middle = (TOP + HEIGHT - BOTTOM) / 2;
    node("text", { x: 12, y: middle, "text-anchor": "middle", transform: "rotate(-90 12 " + middle + ")" }, svg,
      align.value === "exposure" ? "density" : "density above base plus fog");
    const picked = chosen();
    const path = function (i) {
      return "M" + all[i].map(function (p) { return px(p[0]).toFixed(1) + "," + py(p[1]).toFixed(1); }).join("L");
    };
    data.curves.forEach(function (curve, i) {
      if (picked.indexOf(i) < 0 && all[i].length > 0) { node("path", { class: "curve", d: path(i) }, svg); }
    });
    const labels = [];
    picked.forEach(function (i) {
      if (all[i].length === 0) { return; }
      const slot = data.curves[i].reference ? 0 : 1 + picked.filter(function (j) { return !data.curves[j].reference; }).indexOf(i) % (MOST - 1);
      node("path", { class: "curve chosen c" + slot, d: path(i), "stroke-dasharray": DASHES[slot] }, svg);
      const end = all[i][all[i].length - 1];
      labels.push({ slot: slot, x: px(end[0]), y: py(end[1]), text: data.curves[i].name });
    });
    // Labels at the ends of lines, moved apart where they would touch.
    labels.sort(function (a, b) { return a.y - b.y; });
    labels.forEach(function (label, i) {
      label.at = i === 0 ? Math.max(TOP + 8, label.y) : Math.max(label.y, labels[i - 1].at + 15);
    });
    labels.forEach(function (label, i) {
      if (WIDTH < 600) {
        const y = HEIGHT - names + 12 + 17 * i;
        node("path", { class: "curve chosen c" + label.slot, d: "M" + LEFT + "," + (y - 4) + "h26", "stroke-dasharray": DASHES[label.slot] }, svg);
        node("text", { x: LEFT + 32, y: y }, svg, shortened(label.text, Math.floor((WIDTH - LEFT - 32) / 7)));
        return;
      }
      const x = WIDTH - RIGHT + 34;
      node("path", { class: "curve c" + label.slot, d: "M" + label.x + "," + label.y + "L" + (x - 26) + "," + label.at + "H" + (x - 4),
        "stroke-dasharray": DASHES[label.slot] }, svg);
      node("text", { x: x, y: label.at + 4 }, svg, shortened(label.text, 27));
    });
    node("path", { class: "axis cursor" }, svg);
    node("circle", { class: "halo", r: 5, cx: -10, cy: -10 }, svg);
    node("circle", { class: "dot axis", r: 5, cx: -10, cy: -10 }, svg);
    slider.min = left; slider.max = right; slider.step = 0.05;
    read();
  }

  // What the chosen films have at the place of the slider.
  function read() {
    const x = Number(slider.value);
    place.textContent = number(x, 2);
    svg.querySelector(".cursor").setAttribute("d", "M" + frame.px(x) + "," + TOP + "V" + (HEIGHT - BOTTOM));
    values.replaceChildren();
    chosen().forEach(function (i) {
      const found = at(data.curves[i], x);
      const row = values.insertRow();
      const head = document.createElement("th");
      head.scope = "row";
      head.textContent = data.curves[i].name;
      row.appendChild(head);
      row.insertCell().textContent = found === null ? "\u2013" : number(found.gross, 2);
      row.insertCell().textContent = found === null ? "\u2013" : number(found.gradient, 2);
    });
  }

  function nearest(event) {
    const box = svg.getBoundingClientRect();
    if (frame === null || box.width === 0) { return null; }
    const x = (event.clientX - box.left) * WIDTH / box.width;
    const y = (event.clientY - box.top) * HEIGHT / box.height;
    const value = frame.left + (x - LEFT) / (WIDTH - LEFT - RIGHT) * (frame.right - frame.left);
    let best = null;
    data.curves.forEach(function (curve, i) {
      const found = at(curve, value);
      const distance = found === null ? Infinity : Math.abs(frame.py(found.y) - y);
      if (distance < 60 && (best === null || distance < best.distance)) {
        best = { curve: curve, index: i, found: found, distance: distance, x: x, y: frame.py(found.y) };
      }
    });
    return best;
  }
  svg.addEventListener("pointermove", function (event) {
    const best = nearest(event);
    if (best !== null) {
      said.textContent = say(best.curve, best.found);
      svg.querySelectorAll("circle").forEach(function (dot) { dot.setAttribute("cx", best.x); dot.setAttribute("cy", best.y); });
    }
  });
  svg.addEventListener("click", function (event) {
    const best = nearest(event);
    if (best !== null) {
      boxes[best.index].click();
      said.textContent = say(best.curve, best.found);
    }
  });
  boxes.forEach(function (box) {
    box.addEventListener("change", function () {
      if (chosen().length > MOST) {
        box.checked = false;
        said.textContent = "Six films at most stand out; untick one first.";
      } else {
        draw();
      }
    });
  });
  let lastWidth = 0;
  window.addEventListener("resize", function () {
    if (svg.clientWidth !== lastWidth) { lastWidth = svg.clientWidth; draw(); }
  });
  align.addEventListener("change", draw);
  slider.addEventListener("input", read);
  overlay.classList.add("has-live");
  draw();
});
