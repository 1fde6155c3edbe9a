// The rules of axe that the page breaks. Contrast takes four fifths of the time, so at a second size of the window it is
// judged only where text is shown that was not, or where its ink, its ground, or its letters are not what they were.
(async () => {
  const judged = (window.judgedContrast ||= new WeakMap()), first = !window.judgedOnce;
  window.judgedOnce = true;
  const shown = element => element.checkVisibility({ visibilityProperty: true, opacityProperty: true });
  const inks = style => [style.color, style.fill, style.fontSize, style.fontWeight, style.opacity, style.textShadow];
  const grounds = style => [style.backgroundColor, style.backgroundImage, style.opacity, style.position, style.zIndex];
  const chain = element => element ? grounds(getComputedStyle(element)).join() + chain(element.parentElement) : '';
  const speaks = element => [...element.childNodes].some(child => child.nodeType === 3 && child.data.trim()) || element.value;
  const anew = [...document.querySelectorAll('body *')].filter(speaks).filter(shown).filter(element => {
    const look = inks(getComputedStyle(element)).join() + chain(element), known = judged.get(element);
    judged.set(element, look);
    return look !== known;
  });
  const named = found => found.violations.map(violation => violation.id);
  const resultTypes = ['violations'];
  if (first) return named(await axe.run({ resultTypes }));
  const rest = named(await axe.run({ resultTypes, rules: { 'color-contrast': { enabled: false } } }));
  if (!anew.length) return rest;
  return [...rest, ...named(await axe.run({ include: anew }, { resultTypes, runOnly: ['color-contrast'] }))];
})()
