// What of a page axe has not judged yet, each named by a hash; axe judges a page only if it has any that is not known.
// Contrast knows the ink of letters, whether they are large, and the grounds that they lie on: those of the elements they
// stand in and of any other that they touch. The other rules know no colour and no class: what an element is and says of
// itself, what it stands in, its children and whether they show; texts count as being there or not, a reference as leading
// somewhere or not. A few ask about the page as a whole. What is news is marked, for `axe.js`.
known => {
  const judged = new Set(known.split(' ')), news = new Set();
  const hash = text => {
    let a = 0xdeadbeef, b = 0x41c6ce57;
    for (let i = 0; i < text.length; i++) {
      const letter = text.charCodeAt(i);
      a = Math.imul(a ^ letter, 2654435761), b = Math.imul(b ^ letter, 1597334677);
    }
    a = Math.imul(a ^ (a >>> 16), 2246822507) ^ Math.imul(b ^ (b >>> 13), 3266489909);
    b = Math.imul(b ^ (b >>> 16), 2246822507) ^ Math.imul(a ^ (a >>> 13), 3266489909);
    return (4294967296 * (2097151 & b) + (a >>> 0)).toString(36);
  };
  const isNews = (...look) => { const name = hash(JSON.stringify(look)); return !judged.has(name) && !!news.add(name); };
  const sorted = all => [...new Set(all)].sort();

  const speaks = one => [...one.childNodes].some(child => child.nodeType === 3 && child.data.trim());
  const leads = id => { const one = document.getElementById(id); return one ? !!one.textContent.trim() : ''; };
  const WORDS = /^(alt|title|placeholder|value|label|aria-(label|description|roledescription|valuetext))$/;
  const REFERS = /^(for|headers|list|aria-(labelledby|describedby|controls|owns|activedescendant|details|errormessage|flowto))$/;
  const MATTERS = new RegExp('^(role|type|tabindex|lang|autocomplete|scope|hidden|disabled|required|readonly|multiple|open' +
    '|inert|contenteditable|accesskey|http-equiv|usemap|ismap|aria-.*)$');
  const told = ({ name, value }) => {
    if (WORDS.test(name)) return name + !!value.trim();
    if (REFERS.test(name)) return name + value.trim().split(/\s+/).map(leads);
    if (name === 'href') return name + (value[1] && value[0] === '#' ? leads(value.slice(1)) : !!value);
    if (name === 'style') return value.includes('!important') ? value : '';
    return MATTERS.test(name) ? `${name}=${value}` : '';
  };
  const isShown = one => one.checkVisibility({ visibilityProperty: true });
  const labels = one => [...one.labels ?? []].slice(0, 2).map(label => !!label.textContent.trim());
  const saysOf = one => [one.tagName, isShown(one), speaks(one), !!one.value, !!one.disabled, labels(one), ...[...one.attributes].map(told)].join();
  const kinds = new Map([...document.querySelectorAll('body, body *')].map(one => [one, saysOf(one)]));
  const shown = [...kinds.keys()].filter(isShown)
    .map(one => ({ one, style: getComputedStyle(one), box: one.getBoundingClientRect() }));

  const ink = style => [style.color, style.fill, style.fontWeight >= 700, style.fontStyle, style.textShadow, style.textDecorationLine];
  const FOCUSED = 'a[href], button, input, select, textarea, summary, [tabindex]';
  const scrolls = (one, style) => /auto|scroll/.test(style.overflow)
    && (one.scrollWidth > one.clientWidth + 12 || one.scrollHeight > one.clientHeight + 12)
    && (one.matches(FOCUSED) || !!one.querySelector(FOCUSED) ? 'by what it holds' : 'by nothing');
  const HOLDS = 'a, button, summary, label, table, [role], [aria-hidden]';  // judged by all that is in them, at any depth
  const places = new Map();
  const outer = (map, one) => { while ((one = one.parentElement)) if (map.has(one)) return map.get(one); };
  for (const { one, style } of shown) {
    const place = hash((outer(places, one) ?? '') + kinds.get(one));
    places.set(one, place);
    const beside = one.tagName === 'A' && [ink(style), ink(getComputedStyle(one.parentElement))];
    const is = isNews(place, sorted([...one.children].map(child => kinds.get(child))), scrolls(one, style), beside);
    one.toggleAttribute('data-judge', is);
    for (let up = is && one.closest(HOLDS); up; up = up.parentElement.closest(HOLDS)) up.toggleAttribute('data-judge', true);
  }

  const isClear = style => /^rgba\(.*, 0\)$/.test(style.backgroundColor) && style.backgroundImage === 'none';
  const ground = style => [style.backgroundColor, style.backgroundImage, style.opacity];
  const layer = style => [style.position, style.zIndex];
  const covers = shown.filter(({ one, style }) => one.matches('img, svg') || !isClear(style) || style.opacity !== '1');
  const touch = (a, b) => a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
  const holds = (a, b) => a.left <= b.left + 1 && b.right <= a.right + 1 && a.top <= b.top + 1 && b.bottom <= a.bottom + 1;
  const isLarge = style => parseFloat(style.fontSize) >= (style.fontWeight >= 700 ? 18.66 : 24);
  const isOff = one => !!one.closest(':disabled, [aria-disabled=true], [inert], label:has(:disabled)');
  for (const { one, style, box } of shown) {
    if (!speaks(one) && !one.value) continue;
    const on = covers.filter(other => other.one.contains(one))
      .map(other => [other.one.matches('img, svg'), ground(other.style), holds(other.box, box)]);
    const by = sorted(covers.filter(other => touch(box, other.box) && !other.one.contains(one) && !one.contains(other.one))
      .map(other => [other.one.tagName, ground(other.style), layer(other.style)].join()));
    one.toggleAttribute('data-ink', isNews(ink(style), isLarge(style), isOff(one), one.type, on, by, by.length && layer(style)));
  }

  const seen = such => shown.map(({ one }) => one).filter(one => one.matches(such));
  const twice = all => sorted(all.filter((one, at) => all.indexOf(one) !== at));
  const named = one => [one.tagName, one.role, one.ariaLabel, leads(one.getAttribute('aria-labelledby')), one.getAttribute('aria-labelledby')].join();
  const outside = seen('body *').filter(one => !one.closest('header, footer, nav, main, aside, [role]'));
  const levels = seen('h1, h2, h3, h4, h5, h6').map(one => one.tagName);
  const ofThePage = [
    isNews([...document.documentElement.attributes].map(told), kinds.get(document.body), !!document.title.trim(),
      [...document.querySelectorAll('meta')].map(one => one.outerHTML), sorted(outside.map(one => kinds.get(one))),
      ['main, [role=main]', 'h1', 'body > header, [role=banner]', 'body > footer, [role=contentinfo]'].map(such => seen(such).length),
      twice(seen('header, footer, nav, main, aside, section, form, [role]').map(named)),
      twice([...document.querySelectorAll('[id]')].map(one => one.id)),
      twice([...document.querySelectorAll('[accesskey]')].map(one => one.accessKey))),
    ...levels.map((level, at) => isNews('headings', levels[at - 1] ?? '', level)),
  ];
  document.documentElement.toggleAttribute('data-judge', ofThePage.includes(true));
  return [...news].join(' ');
}
