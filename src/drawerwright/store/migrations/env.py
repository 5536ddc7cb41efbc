"""Runs the steps on the connection that the store has opened and locked."""

from alembic import context

from drawerwright.store.tables import VERSION_TABLE, metadata

context.configure(
    connection=context.config.attributes["connection"],
    target_metadata=metadata,
    version_table=VERSION_TABLE,
)
# The store has begun the transaction, and ends it: all steps, or none.
context.run_migrations()
