"""Small numbers in words."""

from passageproof.results.saying.small_numbers import in_words


def test_a_small_number_is_said_in_words_and_a_large_one_as_many():
    assert [in_words(number) for number in (1, 2, 7, 12, 13)] == ["one", "two", "seven", "twelve", "many"]
