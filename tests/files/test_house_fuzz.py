"""A short run of what bench/fuzz_house.py does for ten minutes: nothing raised, nothing slow."""

import random
import time

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from bench.fuzz_house import WORDS, changed, seeds, try_one
from tests.files.typed import PLAIN, read

QUICK = settings(max_examples=60)


@QUICK
@given(data=st.binary(max_size=600))
@example(data=b"\xff\xfe")
@example(data=b"\xc3")
@example(data=b"a: !<")
def test_any_bytes_are_read_without_an_exception(data):
    try_one(data)


@QUICK
@given(
    words=st.lists(st.sampled_from(WORDS) | st.text(max_size=6), max_size=40),
    gap=st.sampled_from((" ", "\n", "")),
)
def test_any_words_of_the_format_are_read_without_an_exception(words, gap):
    try_one(gap.join(words).encode("utf-8", errors="surrogatepass"))


@QUICK
@given(seed=st.integers(0, 2**32))
def test_any_change_to_a_good_file_is_read_without_an_exception(seed):
    chance = random.Random(seed)
    try_one(changed(chance.choice(seeds()), chance))


@QUICK
@given(text=st.text(max_size=200), line=st.integers(0, PLAIN.count("\n")))
def test_any_text_put_into_a_good_file_is_read_within_two_seconds(text, line):
    lines = PLAIN.splitlines()
    lines.insert(line, text)
    begun = time.process_time()
    read("\n".join(lines))
    assert time.process_time() - begun < 2


@pytest.mark.parametrize(
    "often",
    [
        "? ",
        "- ",
        "[",
        "{",
        "'",
        '"',
        "a: ",
        "\n ",
        "&a ",
        "|\n",
        ">\n",
        "a\n",
        " \t",
        "a:\n ",
        "a: 'x\n",
        "8.6' ",
    ],
)
def test_no_sign_repeated_two_hundred_thousand_times_takes_two_seconds(often):
    head = "setday house: 1\nname: x\nwall kinds: {a: {studs: 2x4}}\nrooms: "
    for begin in ("", head):
        begun = time.process_time()
        count = len(read((begin + often * 200_000)[:199_000]).findings)
        assert time.process_time() - begun < 2
        assert count <= 201
