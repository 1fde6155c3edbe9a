// The rules of axe that a page breaks, of what `news.js` has marked: each rule looks at marked elements alone, the rules
// that compare a page's elements, or ask about all of it, look where something about the page is news.
async () => {
  const any = such => !!document.querySelector(such), INK = 'color-contrast';
  const OF_THE_PAGE = /^(accesskeys|bypass|document-title|duplicate-id|frame-(focus|test|title-)|heading-order|html|landmark-(no|one|unique)|meta|page-has|region)/;
  const { rules } = axe._audit, isNews = any('html[data-judge]'), apart = { [INK]: { enabled: any('[data-ink]') } };
  for (const rule of rules) {
    if (OF_THE_PAGE.test(rule.id)) apart[rule.id] = { enabled: isNews && rule.enabled };
    else if (rule.id === INK) rule.selector = '[data-ink]';
    else if (!rule.selector.startsWith('[data-judge]')) rule.selector = `[data-judge]:is(${rule.selector})`;
  }
  const { violations } = await axe.run(document, {
    resultTypes: ['violations'], preload: false, selectors: false, elementRef: false,
    ...any('[data-judge]') ? { rules: apart } : { runOnly: [INK] },
  });
  for (const mark of ['data-judge', 'data-ink']) document.querySelectorAll(`[${mark}]`).forEach(one => one.removeAttribute(mark));
  return violations.map(violation => violation.id);
}
