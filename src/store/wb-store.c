/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "config.h"

#include "store/wb-store.h"

G_DEFINE_QUARK (wb-store-error-quark, wb_store_error)
