"""No file that one has to scroll to know."""

import ast
import io
import tokenize
from functools import cache

from tests.architecture.source import ANY_FUNCTION, Module, functions, modules

MODULE_LINES = 400
FUNCTION_LINES = 40
OURS = ("src/setday", "start", "run.py", "tests", "bench")


def test_no_module_is_longer_than_the_limit():
    long = [
        f"{module.path}: {count} lines"
        for folder in OURS
        for module in modules(folder)
        if "/migrations/" not in module.path and (count := module.text.count("\n")) > MODULE_LINES
    ]
    assert long == [], f"over {MODULE_LINES} lines: divide along a noun"


def test_no_function_has_more_code_lines_than_the_limit():
    long = [
        f"{module.path}:{function.lineno} {function.name}: {count} code lines"
        for folder in ("src/setday", "start", "run.py", "bench")
        for module in modules(folder)
        for function in functions(module.tree)
        if (count := code_lines(module, function)) > FUNCTION_LINES
    ]
    assert long == [], f"over {FUNCTION_LINES} code lines: name its steps"


def code_lines(module: Module, function: ANY_FUNCTION) -> int:
    """Count the lines of a function that hold code: no blank lines, comments or docstring."""
    last = function.end_lineno or function.lineno
    return len(_lines_with_code(module.text) & set(range(function.lineno, last + 1)) - _docstring(function))


def _docstring(function: ANY_FUNCTION) -> set[int]:
    first = function.body[0]
    if (
        isinstance(first, ast.Expr)
        and isinstance(first.value, ast.Constant)
        and isinstance(first.value.value, str)
    ):
        return set(range(first.lineno, (first.end_lineno or first.lineno) + 1))
    return set()


@cache
def _lines_with_code(text: str) -> set[int]:
    empty = {
        tokenize.COMMENT, tokenize.NL, tokenize.NEWLINE, tokenize.INDENT, tokenize.DEDENT, tokenize.ENDMARKER,
    }  # fmt: skip
    lines: set[int] = set()
    for token in tokenize.generate_tokens(io.StringIO(text).readline):
        if token.type not in empty:
            lines.update(range(token.start[0], token.end[0] + 1))
    return lines


def test_code_lines_leave_out_docstring_comments_and_blank_lines():
    docstring = '    """Return it.\n\n    Long.\n    """\n'
    text = f"def area(w, h):\n{docstring}\n    # width first\n    side = w\n    return side * h\n"
    tree = ast.parse(text)
    module = Module("x.py", "x", text, tree)
    assert code_lines(module, next(functions(tree))) == 3
