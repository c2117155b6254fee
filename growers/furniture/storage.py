from whitenoise.storage import CompressedManifestStaticFilesStorage


class NamedByContent(CompressedManifestStaticFilesStorage):
    """Names each file by its content. One not collected yet keeps its plain name, rather than breaking the page."""

    def stored_name(self, name):
        return self.hashed_files.get(self.hash_key(self.clean_name(name)), name)
