// Sorts the table by the column whose heading is pressed; empty cells stay last.
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
