// The water dial: what a water asks for, read from a table that was worked out beforehand.
// It needs nothing but its own piece of HTML, on the page as on the phone.
(() => {
  const tables = new WeakMap();

  function tableOf(dial) {
    if (!tables.has(dial)) tables.set(dial, JSON.parse(dial.querySelector(".dial-table").textContent));
    return tables.get(dial);
  }

  // Straight between the two rows beside a place; null where either has no figure.
  function between(list, at) {
    const low = Math.max(0, Math.min(Math.floor(at), list.length - 2));
    const [a, b] = [list[low], list[low + 1]];
    return a === null || b === null ? null : a + (b - a) * (at - low);
  }

  function density(table, water) {
    if (water.kind === "measured") return water.density;
    const { salts, rows } = table.grids[water.kind];
    const [start, step] = table.celsius;
    const at = (water.celsius - start) / step;
    const along = rows.map((row) => (row.length > 1 ? between(row, (water.salt - salts[0]) / salts[1]) : row[0]));
    return between(along, at) / table.fine;
  }

  function read(table, rho) {
    const at = Math.max(0, Math.min((rho - table.from) / table.step, table.rows.lead.length - 1));
    return Object.fromEntries(Object.entries(table.rows).map(([key, list]) => [key, between(list, at)]));
  }

  function write(table, kind, value) {
    const unit = table.units[kind];
    const number = value * unit.per - unit.offset;
    const isSmall = number !== 0 && Math.abs(number) < unit.small;
    const digits = isSmall ? 1 : Math.max(0, unit.decimals - (Math.abs(number) >= 100 ? 1 : 0));
    return `${number.toFixed(digits)}${unit.name === "°" ? "" : " "}${unit.name}`;
  }

  const isNought = (text) => !/[1-9]/.test(text);

  function filled(text, ...values) {
    return values.reduce((made, value) => made.replace("{}", value), text);
  }

  function told(table, one) {
    const { words, tanks: [blown, full, room] } = table;
    const lead = write(table, "mass", Math.abs(one.lead));
    const far = one.rises === null ? "" : write(table, "length", Math.abs(one.rises));
    const angle = one.trim === null ? "" : `${Math.abs(one.trim).toFixed(1)}°`;
    let ask = filled(words[one.lead > 0 ? "add" : "out"], lead);
    if (one.foam > 0) ask = filled(words.foam, lead, write(table, "volume", one.foam));
    else if (isNought(lead)) ask = words.nothing;
    let neutral = filled(words.neutral, write(table, "volume", one.neutral), ((100 * one.neutral) / room).toFixed(0));
    if (one.neutral > full) neutral = words.never;
    else if (one.neutral < blown) neutral = words.sinks;
    let rides = words.drowns;
    if (one.rises !== null) rides = isNought(far) ? words["as meant"] : filled(words[one.rises > 0 ? "higher" : "lower"], far);
    let hangs = words["no hang"];
    if (one.trim !== null) hangs = isNought(angle) ? words.level : filled(words[one.trim > 0 ? "bow" : "stern"], angle);
    const short = write(table, "mass", Math.abs(one.short));
    const trimmed = isNought(short) ? words["as neutral"] : filled(words[one.short > 0 ? "light" : "heavy"], short);
    return { ask, full: trimmed, neutral, rides, hangs };
  }

  function turn(dial) {
    const table = tableOf(dial);
    const number = (key) => Number(dial.querySelector(`[name="pond-${key}"]`).value);
    const kind = dial.querySelector('[name="pond-kind"]:checked').value;
    const hidden = { celsius: kind === "measured", salt: kind !== "pool" && kind !== "sea", density: kind !== "measured" };
    for (const row of dial.querySelectorAll("[data-row]")) row.hidden = hidden[row.dataset.row];
    const grid = table.grids[kind];
    if (grid && grid.salts[2] > 1) dial.querySelector('[name="pond-salt"]').max = grid.salts[0] + grid.salts[1] * (grid.salts[2] - 1);
    const water = { kind, celsius: number("celsius"), salt: kind === "fresh" ? 0 : number("salt"), density: number("density") };
    const [, celsius, salt] = dial.querySelector("#pond-named").value.split("|");
    if (salt) Object.assign(water, { celsius: Number(celsius), salt: Number(salt) }); // finer than the sliders
    const rho = density(table, water);
    const says = told(table, read(table, rho));
    for (const [key, text] of Object.entries(says)) dial.querySelector(`[data-told="${key}"]`).textContent = text;
    const isSame = says.ask === table.words.nothing;
    for (const [key, text] of [["where", table.place], ["trimmed", table.trimmed]]) dial.querySelector(`[data-told="${key}"]`).textContent = isSame ? "" : text;
    dial.querySelector('[data-told="hangs"]').hidden = !says.hangs;
    dial.querySelector('[data-told="density"]').textContent = `${rho.toFixed(1)} kg/m³; she is trimmed for ${table.own.toFixed(1)}`;
    const outputs = { celsius: write(table, "temperature", water.celsius), salt: `${water.salt.toFixed(1)} g/kg`, density: `${water.density.toFixed(1)} kg/m³` };
    for (const [key, text] of Object.entries(outputs)) {
      dial.querySelector(`[data-row="${key}"] output`).textContent = text;
      dial.querySelector(`[name="pond-${key}"]`).setAttribute("aria-valuetext", text);
    }
    dial.dataset.density = rho.toFixed(3);
    const last = table.from + table.step * (table.rows.lead.length - 1);
    dial.querySelector(".needle").style.left = `${(100 * (rho - table.from)) / (last - table.from)}%`;
    if (kind !== "measured") dial.querySelector('[name="pond-density"]').value = rho.toFixed(1);
    dial.dispatchEvent(new CustomEvent("turned", { bubbles: true }));
  }

  document.addEventListener("input", (event) => {
    const dial = event.target.closest?.(".dial");
    if (!dial) return;
    const named = dial.querySelector("#pond-named");
    if (event.target === named && named.value) {
      const [kind, celsius, salt] = named.value.split("|");
      dial.querySelector(`[name="pond-kind"][value="${kind}"]`).checked = true;
      const salty = dial.querySelector('[name="pond-salt"]');
      salty.max = 42;
      salty.value = salt;
      dial.querySelector('[name="pond-celsius"]').value = celsius;
    } else if (event.target !== named) named.value = "";
    turn(dial);
  });
})();
