"""Waiting for something in a page whose policy forbids what the driver's own waiting needs."""

from __future__ import annotations

from playwright.sync_api import Page


def wait_until(page: Page, expression: str, seconds: float = 20) -> None:
    """Asks again and again from outside until the expression is true; the page's policy forbids evaluating inside.

    Raises AssertionError when it is not within the time.
    """
    for _ in range(int(seconds * 10)):
        if page.evaluate(expression):
            return
        page.wait_for_timeout(100)
    raise AssertionError(f"not within {seconds} seconds: {expression}")
