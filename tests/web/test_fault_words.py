"""Faults in two languages: every sentence of the core has its shape, and loses nothing in it."""

import re

import pytest
from django.utils import translation

from setday.actions.switching.hookups import example_names, example_text, open_hookup
from setday.switching import HuntGround
from setday.web.hunts.fault_words import SHAPES, fault_words


def faults_of(name):
    return HuntGround(open_hookup(example_text(name), name=name).sound()).fault_words()


@pytest.mark.parametrize("name", example_names())
def test_every_fault_has_a_shape_and_stays_the_same_in_english(name):
    for words in faults_of(name):
        assert sum(bool(re.fullmatch(shape, words)) for shape, _ in SHAPES) >= 1, words
        with translation.override("en"):
            assert fault_words(words) == words


@pytest.mark.parametrize("name", example_names())
def test_every_fault_is_another_sentence_in_spanish_and_no_two_become_one(name):
    faults = set(faults_of(name))
    with translation.override("es"):
        said = {fault_words(words) for words in faults}
    assert len(said) == len(faults)
    assert not said & faults


@pytest.mark.parametrize(
    ("words", "spanish"),
    [
        ("Switch S1 is dead: it never closes.", "El interruptor S1 está muerto: nunca cierra."),
        (
            "Box 'near': N1 black is joined to N1 red + S1 traveler 2 instead of S1 traveler 1.",
            "Caja 'near': N1 black está unido a N1 red + S1 traveler 2 en vez de a S1 traveler 1.",
        ),
        (
            "Switch S1 is dead: it never closes. And also: Switch S2 is dead: it never closes.",
            (
                "El interruptor S1 está muerto: nunca cierra. Y además: "
                "El interruptor S2 está muerto: nunca cierra."
            ),
        ),
        ("Something else.", "Something else."),
    ],
)
def test_faults_are_said_in_spanish(words, spanish):
    with translation.override("es"):
        assert fault_words(words) == spanish
