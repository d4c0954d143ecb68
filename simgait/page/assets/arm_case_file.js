/* The arm as it is set now, written as a case file that `simgait arm` reads. */

/* The tables of the case with the setting in them. */
function armTables({ given }, { arm, setting }) {
  const tables = structuredClone(given.tables);
  const mm = (length) => Number((length * MM).toFixed(9));
  Object.assign(tables.arm, {
    forearm_mm: mm(arm.forearm), forearm_mass_kg: arm.forearm_mass, forearm_centre_mm: mm(arm.forearm_centre),
    device_centre_mm: mm(arm.device_centre), tip_mm: mm(arm.tip), held_mass_kg: arm.held_mass,
  });
  if (given.level !== "forearm") {
    Object.assign(tables.cable, { loop_mm: setting.loop_mm, guide_mm: setting.guide_mm });
    tables.search.guide_mm = [setting.guide_mm];
    tables.search.loop_mm = tables.search.loop_mm.filter((loop) => loop <= tables.arm.forearm_mm);
    if (tables.search.loop_mm.length === 0) tables.search.loop_mm = [setting.loop_mm];
  }
  const moved = tables.search.forearm_change_mm.map((change) => Number((change - setting.forearm_change_mm).toFixed(9)));
  tables.search.forearm_change_mm = moved.some((change) => change === 0) ? moved : [...moved, 0].sort((a, b) => a - b);
  return tables;
}

function armCaseText(model, run) {
  const lines = [`# Written by a page of simgait ${model.given.version}: ${armSettingWords(model, run.setting)}.`,
    "# What the case had left out is written out here.", `title = ${tomlValue(model.given.title)}`];
  for (const [name, table] of Object.entries(armTables(model, run))) {
    lines.push("", `[${name}]`, ...Object.entries(table).map(([key, value]) => `${key} = ${tomlValue(value)}`));
  }
  return `${lines.join("\n")}\n`.replaceAll("\u00a0", " ").replaceAll(MINUS, "-");
}

/* A value as TOML writes it; texts are JSON's, which TOML reads alike. */
function tomlValue(value) {
  if (Array.isArray(value)) return `[${value.map(tomlValue).join(", ")}]`;
  return typeof value === "number" ? String(value) : JSON.stringify(value).replaceAll("\u007f", "\\u007f");
}
