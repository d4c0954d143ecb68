/* The figures of a lesson on a leg: each setting was simulated by the compiled engine. */

/* What was simulated for a setting in its written unit: {figures, pose}. */
function stanceAt(setting) {
  const { low, step } = data.lesson.control;
  return data.stances[Math.round((setting - low) / step)];
}

/* Figures by their key, in the unit of each. */
function lessonFigures(setting) {
  const { figures } = stanceAt(setting);
  return Object.fromEntries(data.lesson.figures.map(({ key }, i) => [key, figures[i]]));
}
