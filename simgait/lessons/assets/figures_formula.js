/* The figures of a lesson, from the formulas that Python uses as well. */

/* Figures [SI] by their key, for a setting in its written unit. */
function lessonFigures(setting) {
  const values = formulas[data.lesson.formula](setting * data.lesson.control.si);
  return Object.fromEntries(data.lesson.figures.map(({ key }, i) => [key, values[i]]));
}
