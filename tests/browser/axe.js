// The rules of axe that the page breaks. Contrast takes four fifths of the time, so axe judges it once for every look: the
// same kind of element within the same kinds, in the same ink, on the same ground, here or earlier in this tab. What
// touches anything with a ground that is not its own ancestor is judged wherever it stands; look.js sees every text anyway.
// Within a drawing, turning the page moves nothing. A page that was judged and then turned is judged by all rules again
// only if turning it showed or hid what no page before it did: the rules but for contrast and scrolling know only what is
// there and whether it shows.
async isTurned => {
  const LOOKS = 'looks judged by axe', looks = new Map(JSON.parse(sessionStorage.getItem(LOOKS) ?? '[]'));
  const shown = [...document.querySelectorAll('body *')]
    .filter(one => one.checkVisibility({ visibilityProperty: true, opacityProperty: true }))
    .map(one => ({ one, style: getComputedStyle(one), box: one.getBoundingClientRect() }));
  const speaks = one => [...one.childNodes].some(child => child.nodeType === 3 && child.data.trim()) || !!one.value;
  const kind = one => [one.tagName, one.getAttribute('class'), one.type, one.disabled, one.ariaDisabled, speaks(one)];
  const ink = style => [style.color, style.fill, style.fontSize, style.fontWeight, style.textShadow];
  const ground = style => [style.backgroundColor, style.backgroundImage, style.opacity, style.position, style.zIndex];
  const isClear = style => /^rgba\(.*, 0\)$/.test(style.backgroundColor) && style.backgroundImage === 'none';
  const covering = shown.filter(({ one, style }) => one.matches('img, svg') || !isClear(style));
  const touch = (a, b) => a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
  const before = isTurned ? window.shownToAxe : new Map();
  const isAsBefore = (one, other) => before.has(one) && one.ownerSVGElement && one.ownerSVGElement === other.ownerSVGElement;
  const isAlone = ({ one, box }) => !covering.some(other =>
    touch(box, other.box) && !other.one.contains(one) && !one.contains(other.one) && !isAsBefore(one, other.one));
  const numbers = new Map();
  for (const found of shown) {
    const look = [numbers.get(found.one.parentElement), kind(found.one), ink(found.style), ground(found.style)].join();
    if (!looks.has(look) || !isAlone(found)) found.one.toggleAttribute('data-judge', true);
    if (!looks.has(look)) looks.set(look, looks.size);
    numbers.set(found.one, looks.get(look));
  }
  const CHANGES = 'changes judged by axe', changes = new Set(JSON.parse(sessionStorage.getItem(CHANGES) ?? '[]'));
  const unlike = (a, b) => [...a].filter(([one]) => !b.has(one));
  const named = ([one, look]) => [look, one.id, one.getAttribute('for'), one.getAttribute('href')];
  const change = isTurned ? JSON.stringify([unlike(before, numbers), unlike(numbers, before)].map(all => all.map(named))) : '';
  const runOnly = isTurned && changes.has(change) ? { runOnly: ['color-contrast', 'scrollable-region-focusable'] } : {};
  window.shownToAxe = numbers;
  axe.configure({ rules: [{ id: 'color-contrast', selector: '[data-judge]' }] });
  const { violations } = await axe.run({ resultTypes: ['violations'], preload: false, ...runOnly });
  document.querySelectorAll('[data-judge]').forEach(one => one.removeAttribute('data-judge'));
  sessionStorage.setItem(LOOKS, JSON.stringify([...looks]));
  if (isTurned) sessionStorage.setItem(CHANGES, JSON.stringify([...changes.add(change)]));
  return violations.map(violation => violation.id);
}
