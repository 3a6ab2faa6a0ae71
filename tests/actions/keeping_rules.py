"""What must hold of every store that keeps files in versions: tried in memory, and on the database."""

import pytest

from setday.actions.versions import LONGEST_NAME, add_version, free_key, keep_new, version_of

__all__ = ["KeepingRules"]


class KeepingRules:
    """Derive from it, and give a fixture `store` that is empty."""

    def kept(self, store, name="Plover Lane", text="a"):
        return keep_new(store, name=name, file_name="house.yaml", text=text)

    def test_a_new_thing_has_its_first_version(self, store):
        thing, version = self.kept(store)
        assert (thing.key, thing.name) == ("plover-lane", "Plover Lane")
        assert (version.number, version.text, version.file_name, version.note) == (1, "a", "house.yaml", "")
        assert store.newest(thing).number == 1

    def test_another_text_is_another_version(self, store):
        thing, _ = self.kept(store)
        again = add_version(store, thing, name="Plover Lane 2", file_name="h.yaml", text="b", note="moved")
        assert (again.number, again.text, again.note) == (2, "b", "moved")
        assert store.named("Plover Lane 2").key == "plover-lane"

    def test_the_same_text_is_no_other_version(self, store):
        thing, first = self.kept(store)
        again = add_version(store, thing, name="Another name", file_name="h.yaml", text="a")
        assert again.number == first.number
        assert store.named("Another name") is None

    def test_going_back_to_an_earlier_text_is_a_version(self, store):
        thing, _ = self.kept(store)
        for text in ("b", "a"):
            add_version(store, thing, name="Plover Lane", file_name="h.yaml", text=text)
        assert [store.numbered(thing, n).text for n in (1, 2, 3)] == ["a", "b", "a"]

    @pytest.mark.parametrize(
        ("asked", "number"),
        [(None, 2), ("", 2), ("1", 1), ("2", 2), ("01", 1), ("3", None), ("0", None), ("-1", None),
         ("x", None), ("1.0", None), ("\N{SUPERSCRIPT TWO}", None), ("\N{ARABIC-INDIC DIGIT ONE}", None),
         ("9" * 30, None)],
    )  # fmt: skip
    def test_an_address_asks_for_a_version_with_anything_at_all(self, store, asked, number):
        thing, _ = self.kept(store)
        add_version(store, thing, name="Plover Lane", file_name="h.yaml", text="b")
        found = version_of(store, thing, asked)
        assert (found.number if found else None) == number

    @pytest.mark.parametrize(
        ("name", "key"),
        [("Plover Lane", "plover-lane"), ("Casa del Ñandú", "casa-del-nandu"), ("Ana's house", "anas-house"),
         ("new", "new-2"), ("  --  ", "{usual}"), ("\N{CJK UNIFIED IDEOGRAPH-5BB6}", "{usual}"),
         ("a/b?c=d&e", "abcde"), ("x" * 90, "x" * 50), ("one_two  three", "one-two-three")],
    )  # fmt: skip
    def test_a_key_is_made_of_the_name(self, store, name, key):
        assert free_key(store, name) == key.format(usual=store.usual_key)

    def test_two_of_a_name_have_two_keys(self, store):
        assert [self.kept(store)[0].key for _ in range(3)] == [
            "plover-lane",
            "plover-lane-2",
            "plover-lane-3",
        ]

    def test_a_name_is_found_whatever_its_case(self, store):
        thing, _ = self.kept(store)
        assert store.named("PLOVER lane").key == thing.key
        assert store.named("Plover") is None

    def test_names_that_are_too_long_are_cut(self, store):
        thing, version = keep_new(store, name="n" * 999, file_name="f" * 999, text="a")
        again = add_version(store, thing, name="m" * 999, file_name="f", text="b", note="w" * 999)
        assert [len(x) for x in (thing.name, version.file_name, again.note)] == [LONGEST_NAME] * 3

    def test_a_block_that_fails_keeps_nothing(self, store):
        def begun_and_broken_off():
            with store.together():
                self.kept(store)
                raise KeyError

        with pytest.raises(KeyError):
            begun_and_broken_off()
        assert store.named("Plover Lane") is None
        assert not store.has_key("plover-lane")
