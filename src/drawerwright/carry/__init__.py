"""The study of carrying: will it hold, how far does it sag, does it close, can it tip."""

from drawerwright.carry.carried import CarriedDrawer as CarriedDrawer
from drawerwright.carry.carried import CarriedJob as CarriedJob
from drawerwright.carry.document import carry_document as carry_document
from drawerwright.carry.study import carry_drawer as carry_drawer
from drawerwright.carry.study import carry_job as carry_job
