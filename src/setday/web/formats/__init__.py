"""How numbers and dates are written, language by language, where Django's way is not ours."""
