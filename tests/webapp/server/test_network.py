"""This computer's addresses: those a tablet is likeliest to reach come first, whatever the way out is."""

import pytest

from webapp.server.network import Interface, in_order, own_addresses


def interface(name: str, *addresses: str, is_tunnel: bool = False) -> Interface:
    return Interface(name=name, is_tunnel=is_tunnel, addresses=addresses)


LOOP = interface("lo", "127.0.0.1", "::1")
WIFI = interface("wlan0", "192.168.0.9", "fd00::9", "fe80::1%wlan0")
BRIDGE = interface("docker0", "172.17.0.1")
TUNNEL = interface("tun0", "10.8.0.2", is_tunnel=True)


def names(*interfaces: Interface, out: tuple[str, ...] = ()) -> list[str]:
    return [one.name for one in in_order(interfaces, ways_out=frozenset(out))]


def test_without_a_way_out_the_network_is_found() -> None:
    assert names(LOOP, WIFI) == ["192.168.0.9", "[fd00::9]"]


@pytest.mark.parametrize(
    "aside",
    [
        *(BRIDGE, TUNNEL, interface("utun3", "10.8.0.2"), interface("br-1a2b", "172.18.0.1")),
        *(interface("bridge100", "192.168.64.1"), interface("incusbr0", "10.1.0.1")),
    ],
)
def test_containers_and_tunnels_come_last_even_where_they_are_the_way_out(aside: Interface) -> None:
    assert names(aside, WIFI, out=aside.addresses) == ["192.168.0.9", "[fd00::9]", *aside.addresses]


def test_of_two_networks_the_way_out_comes_first() -> None:
    cable = interface("eth0", "10.0.0.4")
    assert names(WIFI, cable, out=("10.0.0.4",)) == ["10.0.0.4", "192.168.0.9", "[fd00::9]"]


def test_a_network_of_the_newer_kind_alone_is_a_network() -> None:
    assert names(LOOP, interface("eth0", "fd00::9")) == ["[fd00::9]"]


def test_an_address_that_a_computer_gave_itself_comes_after_one_that_was_given() -> None:
    assert names(interface("eth0", "169.254.7.7"), WIFI) == ["192.168.0.9", "[fd00::9]", "169.254.7.7"]


def test_this_computer_itself_is_no_network() -> None:
    assert names(LOOP) == []


def test_each_address_says_its_interface() -> None:
    assert {(one.name, one.interface) for one in in_order((WIFI, BRIDGE))} == {
        ("192.168.0.9", "wlan0"),
        ("[fd00::9]", "wlan0"),
        ("172.17.0.1", "docker0"),
    }


def test_the_addresses_of_this_computer_are_read_from_its_interfaces() -> None:
    assert all(one.interface and not one.name.startswith("127.") for one in own_addresses())


def test_a_bridge_that_leads_to_the_network_is_one_of_its_interfaces() -> None:
    assert names(interface("br0", "192.168.0.8"), WIFI)[0] == "192.168.0.8"
