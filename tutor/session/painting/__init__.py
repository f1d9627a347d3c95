"""One's own cube, painted sticker by sticker."""
