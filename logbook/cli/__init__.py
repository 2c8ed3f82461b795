import os

# Looking for plug-ins of pydantic takes longer than reading a record, and what a stranger's plug-in does to the models
# is nothing to rest on.
os.environ.setdefault("PYDANTIC_DISABLE_PLUGINS", "__all__")
