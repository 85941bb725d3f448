"""The pages as a browser lays them out: widths, print, reading order, contrast, words for every picture."""

from __future__ import annotations

import re
import shutil
from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest

from expert.language.load import load_rules
from expert.shop.report.making import job_page, shop_page, slip_page
from expert.shop.sums.filters import Filters
from tests.shop.browser import Browser

ROOT = Path(__file__).resolve().parents[2]
DEMOS = sorted((ROOT / "transcripts_demo").glob("*.jsonl"))
WIDTHS = {"phone": 360, "small phone": 320, "tablet": 800, "desktop": 1400}
# Text that is wider than the place it stands in, or lies over other text of the same picture.
OVERFLOW = """(() => {
  const wide = [];
  if (document.documentElement.scrollWidth > innerWidth) wide.push('the page');
  for (const text of document.querySelectorAll('svg text')) {
    const box = text.getBoundingClientRect(), paper = text.ownerSVGElement.getBoundingClientRect();
    if (box.right > paper.right + 1 || box.left < paper.left - 1 || box.bottom > paper.bottom + 1)
      wide.push(text.textContent.trim());
  }
  for (const picture of document.querySelectorAll('svg')) {
    const boxes = [...picture.querySelectorAll('text')].map(t => [t.getBoundingClientRect(), t.textContent.trim()]);
    boxes.forEach(([a, one], n) => boxes.slice(n + 1).forEach(([b, other]) => {
      if (Math.min(a.right, b.right) - Math.max(a.left, b.left) > 1 &&
          Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) > 4) wide.push(`${one} over ${other}`); }));
  }
  return wide;
})()"""
# WCAG 2.2, success criterion 1.4.3: contrast of text 4.5 to 1; relative luminance as defined there.
CONTRAST = """(() => {
  const numbers = (colour) => colour.match(/[0-9.]+/g).map(Number);
  const light = (colour) => { const [r, g, b] = numbers(colour).slice(0, 3).map(v => v / 255)
    .map(v => v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4);
    return 0.2126 * r + 0.7152 * g + 0.0722 * b; };
  const behind = (element) => { for (let e = element; e; e = e.parentElement) {
    const colour = getComputedStyle(e).backgroundColor; const n = numbers(colour);
    if (n.length < 4 || n[3] > 0) return colour; } return 'rgb(255, 255, 255)'; };
  let worst = 21, seen = 0;
  for (const element of document.querySelectorAll('body *')) {
    if (![...element.childNodes].some(n => n.nodeType === 3 && n.textContent.trim())) continue;
    const style = getComputedStyle(element); const inPicture = element.ownerSVGElement;
    const ink = light(inPicture ? style.fill : style.color), paper = light(behind(element));
    worst = Math.min(worst, (Math.max(ink, paper) + 0.05) / (Math.min(ink, paper) + 0.05)); seen += 1;
  }
  return [worst, seen];
})()"""


@pytest.fixture(scope="module")
def pages(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Path]:
    folder = tmp_path_factory.mktemp("pages")
    jobs = folder / "jobs"
    jobs.mkdir()
    for path in DEMOS:
        shutil.copy(path, jobs)
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("XDG_CACHE_HOME", str(folder / "cache"))
        made = {
            "job": job_page(DEMOS[4]),
            "danger": job_page(DEMOS[3]),
            "slip": slip_page(DEMOS[0]),
            "shop": shop_page(jobs, None, Filters(), lambda _: load_rules(ROOT / "rules")),
        }
    written = {}
    for name, text in made.items():
        written[name] = folder / f"{name}.html"
        written[name].write_text(text, encoding="utf-8")
    return written


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    with Browser() as started:
        yield started


NAMES = ("job", "danger", "slip", "shop")


@pytest.mark.parametrize("name", NAMES)
def test_nothing_is_wider_than_its_place(browser: Browser, pages: dict[str, Path], name: str) -> None:
    for width in WIDTHS.values():
        browser.show(pages[name], width)
        assert browser.ask(OVERFLOW) == [], width


@pytest.mark.parametrize("name", NAMES)
def test_nothing_is_fetched_and_no_script_stands_in_it(browser: Browser, pages: dict[str, Path], name: str) -> None:
    browser.show(pages[name], 800)
    assert [url for url in browser.fetched if not url.startswith("data:")] == [pages[name].as_uri()]
    assert browser.ask("document.querySelectorAll('script, iframe, object, embed, form').length") == 0
    assert browser.ask("[...document.querySelectorAll('*')].filter(e => [...e.attributes].some("
                       "a => a.name.startsWith('on'))).length") == 0  # fmt: skip


@pytest.mark.parametrize("name", NAMES)
def test_text_stands_out_from_its_ground(browser: Browser, pages: dict[str, Path], name: str) -> None:
    browser.show(pages[name], 800)
    worst, seen = browser.ask(CONTRAST)
    assert worst >= 4.5 and seen > 10


@pytest.mark.parametrize("name", ["job", "shop"])
def test_every_picture_has_a_name_and_its_content_in_words(browser: Browser, pages: dict[str, Path], name: str) -> None:
    browser.show(pages[name], 800)
    tree = browser.page("Accessibility.getFullAXTree")["nodes"]
    pictures = [node for node in tree if node.get("role", {}).get("value") in ("img", "image") and not node["ignored"]]
    drawn = browser.ask("document.querySelectorAll('svg').length")
    assert drawn > 3 and len(pictures) == drawn
    assert all(len(node["name"]["value"]) > 20 for node in pictures)


@pytest.mark.parametrize("name", NAMES)
def test_headings_come_in_order_and_the_page_has_its_landmarks(
    browser: Browser, pages: dict[str, Path], name: str
) -> None:
    browser.show(pages[name], 800)
    levels = browser.ask("[...document.querySelectorAll('h1, h2, h3')].map(h => +h.tagName[1])")
    assert levels[0] == 1 and levels.count(1) == 1
    assert all(after - before <= 1 for before, after in pairwise(levels))
    assert browser.ask("[document.documentElement.lang, document.querySelectorAll('main').length]") == ["en", 1]
    ids = browser.ask("[...document.querySelectorAll('[id]')].map(e => e.id)")
    assert len(ids) == len(set(ids))


def test_the_keyboard_goes_from_top_to_bottom_and_sees_where_it_is(browser: Browser, pages: dict[str, Path]) -> None:
    browser.show(pages["shop"], 800)
    tops: list[float] = []
    for _ in range(8):
        browser.press_tab()
        top, outline = browser.ask(
            "(() => { const e = document.activeElement; return [e.getBoundingClientRect().top + scrollY,"
            " getComputedStyle(e).outlineStyle]; })()"
        )
        tops.append(top)
        assert outline == "solid"
    assert tops[1:] == sorted(tops[1:])


PAPERS = [pytest.param(8.27, 11.69, id="A4"), pytest.param(8.5, 11.0, id="US Letter")]


@pytest.mark.parametrize("width, height", PAPERS)
def test_printed_on_paper_nothing_is_cut_off(
    browser: Browser, pages: dict[str, Path], width: float, height: float
) -> None:
    for name in NAMES:
        browser.page("Emulation.setEmulatedMedia", media="print")
        # What the margins of 15 mm leave, at 96 px to the inch.
        browser.show(pages[name], int((width - 2 * 15 / 25.4) * 96))
        assert browser.ask(OVERFLOW) == [], name
        assert browser.pdf(width, height).startswith(b"%PDF-")
        browser.page("Emulation.setEmulatedMedia", media="")


def test_closed_tables_are_printed(browser: Browser, pages: dict[str, Path]) -> None:
    browser.page("Emulation.setEmulatedMedia", media="print")
    browser.show(pages["shop"], 700)
    heights = browser.ask("[...document.querySelectorAll('details table')].map(t => t.getBoundingClientRect().height)")
    browser.page("Emulation.setEmulatedMedia", media="")
    assert heights and min(heights) > 20


HOSTILE = '</style></title><script>document.title="owned"</script><img src=x onerror=alert(1)>&amp;{{7*7}}\x1b[31m'


def test_hostile_notes_stay_text(browser: Browser, tmp_path: Path) -> None:
    from tests.shop.test_audit import INTAKE, job_at

    lines = [HOSTILE + " name", *INTAKE[1:], "yes", "yes", "yes", "yes", f"note {HOSTILE}", "OL", "done"]
    path = job_at(tmp_path / "7.jsonl", lines)
    page = tmp_path / "7.html"
    page.write_text(job_page(path), encoding="utf-8")
    browser.show(page, 800)
    assert browser.ask("document.title") == "Job 7: open"
    assert browser.ask("document.querySelectorAll('script, img').length") == 0
    text: Any = browser.ask("document.body.innerText")
    assert '<script>document.title="owned"</script><img src=x onerror=alert(1)>&amp;{{7*7}}' in text
    assert not re.search(r"[\x00-\x08\x0b-\x1f\x7f-\x9f]", page.read_text(encoding="utf-8"))
