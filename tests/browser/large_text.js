// What of a page is out of sight: words past the edge of the page or cut off by their box, outside what scrolls. Run in the page.
(() => {
  const width = document.documentElement.clientWidth;
  const above = (e, such) => { for (; e && e !== document.body; e = e.parentElement) if (such(getComputedStyle(e), e)) return e; };
  const hidden = style => style.display === 'none' || style.visibility === 'hidden' || style.clipPath === 'inset(50%)';
  const found = document.documentElement.scrollWidth > width ? ['the page scrolls sideways'] : [];
  const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT), range = document.createRange();
  while (walk.nextNode()) {
    const words = walk.currentNode, box = words.parentElement, says = words.textContent.trim();
    if (!says || box.closest('svg, script, style, template, option, textarea, .skip') || !box.checkVisibility() || above(box, hidden)) continue;
    if (above(box, style => /auto|scroll/.test(style.overflowX))) continue;
    range.selectNodeContents(words);
    const cut = above(box, style => /hidden|clip/.test(style.overflowX))?.getBoundingClientRect() ?? { left: 0, right: width };
    for (const part of range.getClientRects()) if (part.width > 1 && (part.right > cut.right + 1.5 || part.left < cut.left - 1.5)) { found.push(says); break; }
  }
  return found;
})()
