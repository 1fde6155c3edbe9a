// The rules of axe that a page breaks, of what `news.js` has marked: the whole page where something about that is news.
async () => {
  const marked = such => [...document.querySelectorAll(such)], INK = 'color-contrast';
  axe.configure({ rules: [{ id: INK, selector: '[data-ink]' }] });
  const { violations } = await axe.run(
    document.documentElement.matches('[data-judge]') ? document : { include: marked('[data-judge], [data-ink]') },
    { resultTypes: ['violations'], preload: false, selectors: false, elementRef: false,
      ...(marked('[data-judge]').length ? marked('[data-ink]').length ? {} : { rules: { [INK]: { enabled: false } } } : { runOnly: [INK] }) },
  );
  marked('[data-judge], [data-ink]').forEach(one => { one.removeAttribute('data-judge'); one.removeAttribute('data-ink'); });
  return violations.map(violation => violation.id);
}
