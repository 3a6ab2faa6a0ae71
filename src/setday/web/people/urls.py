"""The addresses of this group of screens."""

from django.urls import path

from setday.web.people import (
    views_accounts,
    views_cards,
    views_classes,
    views_devices,
    views_door,
    views_member,
    views_mine,
    views_roster,
)

app_name = "people"

urlpatterns = [
    path("card/", views_door.card, name="card"),
    path("choose/", views_door.choose, name="choose"),
    path("device/", views_door.device, name="device"),
    path("mine/", views_mine.mine, name="mine"),
    path("present/", views_mine.present, name="present"),
    path("people/", views_classes.classes, name="classes"),
    path("people/classes/<slug:key>/", views_classes.class_sheet, name="class"),
    path("people/classes/<slug:key>/edit/", views_classes.class_edit, name="class-edit"),
    path("people/classes/<slug:key>/roster/", views_roster.roster, name="roster"),
    path("people/classes/<slug:key>/sign-offs/", views_member.sign_offs, name="sign-offs"),
    path("people/classes/<slug:key>/cards/", views_cards.cards, name="cards"),
    path("people/classes/<slug:key>/cards.pdf", views_cards.cards_pdf, name="cards-pdf"),
    path("people/members/<slug:key>/", views_member.member, name="member"),
    path("people/members/<slug:key>/sign-off/", views_member.sign_off, name="sign-off"),
    path(
        "people/members/<slug:key>/sign-off/<int:number>/away/",
        views_member.sign_off_away,
        name="sign-off-away",
    ),
    path("people/accounts/", views_accounts.accounts, name="accounts"),
    path("people/accounts/<slug:key>/", views_accounts.account, name="account"),
    path("people/devices/", views_devices.devices, name="devices"),
    path("people/devices/<int:number>/away/", views_devices.device_away, name="device-away"),
    path("people/schools/", views_accounts.schools, name="schools"),
]
