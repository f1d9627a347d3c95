from tutor.coach.glossary import GLOSSARY, terms_in, uses


def test_there_are_at_most_25_terms_each_with_a_meaning_in_one_line() -> None:
    assert len(GLOSSARY) <= 25
    for term in GLOSSARY:
        assert term.meaning
        assert "\n" not in term.meaning
        assert len(term.meaning) <= 110


def test_no_form_belongs_to_two_terms() -> None:
    forms = [form for term in GLOSSARY for form in term.forms]
    assert len(forms) == len(set(forms))


def test_terms_are_found_where_they_stand_whatever_their_case() -> None:
    text = "The Corner goes home."
    found = [(use.term.name, text[use.start : use.end]) for use in uses(text)]
    assert ("corner", "Corner") in found


def test_each_term_is_listed_once_in_the_order_of_its_first_use() -> None:
    names = [term.name for term in terms_in("edge, corner, edge")]
    assert names == ["edge", "corner"]
