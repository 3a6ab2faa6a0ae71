"""Labor figures against the published rows."""

import pytest

from setday.timetable.tasks import (
    capability,
    delay_factor,
    duration_days,
    man_days,
)


@pytest.mark.parametrize(
    ("figure", "published"),
    [
        # NAVEDTRA 14045 ch. 2 quoting P-405: 16,000 ft2 at 33 man-hours per 1,000 ft2, 8-hour days
        (man_days(16_000, hours_per_1000=33), 66.0),
        # NAVFAC P-405: delay factor 67 / production efficiency (formula from memory)
        (delay_factor(67), 1.0),
        (delay_factor(50), 1.34),
        # NAVEDTRA 14233: 10 people, 20 days, 9-hour days, 75 % available
        (capability(10, days=20, hours_per_day=9, available=0.75), 168.75),
        # NAVEDTRA 14045 p. 2-28: 66 man-days, crew of 6, 75 %, 9-hour days
        (duration_days(66, crew=6, available=0.75, hours_per_day=9), 13.04),
    ],
)
def test_labor_figures_are_those_published(figure, published):
    assert figure == pytest.approx(published, abs=0.005)


@pytest.mark.parametrize("percent", [24.9, 100.1])
def test_an_efficiency_nobody_gave_figures_for_is_refused(percent):
    with pytest.raises(ValueError, match="25 to 100"):
        delay_factor(percent)
